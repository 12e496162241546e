#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth::paper {

/// The gauges that these readings were taken with, and the settings and checks that bear on them.
std::vector<Part> gauges_parts(const Bench& bench, const std::vector<Reading>& readings, Unit unit);

}  // namespace tenth::paper
