#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth::paper {

/// Every reading of the engine, in order: when, who, with what, as received, and what became of it. Sizes are whole,
/// in millimetres beside where the spec is in inches.
Part readings_part(const Engine& engine);

}  // namespace tenth::paper
