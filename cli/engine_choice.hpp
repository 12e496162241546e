#pragma once

#include <string>

#include "schema/ledger/bench.hpp"

namespace tenth::cli {

/// The engine named, else the one in use; refused (4) with the nearest right word.
Result<const Engine*> engine_of(const Bench& bench, const std::string& named);

}  // namespace tenth::cli
