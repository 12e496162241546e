#pragma once

#include <vector>

#include "rules/alerts.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// What the gauges of an engine's readings speak of, one cause for each gauge: readings that were taken when it was
/// overdue for calibration, until it is calibrated again; readings that are suspect since it was put in doubt.
std::vector<Cause> gauge_causes(const Bench& bench, const Engine& engine);

}  // namespace tenth
