#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth::paper {

/// What people decided about an engine, in the order of the ledger: stages begun, choices made, readings voided, kept
/// in spite of doubts or moved, alerts cleared; with their reasons. Suspect readings stand among them: nobody has
/// decided.
Part decided_part(const Bench& bench, const Engine& engine);

}  // namespace tenth::paper
