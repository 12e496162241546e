#pragma once

#include <string>

#include "schema/ledger/bench.hpp"

namespace tenth::page {

/// What people decided about an engine, in the order of the ledger: stages begun, choices made, readings voided, kept in
/// spite of doubts or moved, alerts cleared; with their reasons.
std::string decided_markup(const Bench& bench, const Engine& engine);

}  // namespace tenth::page
