#pragma once

#include <string>
#include <vector>

#include "rules/alerts.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// What speaks now in an engine: its figures and readings, and the gauges that these came from.
std::vector<Cause> causes_of(const Bench& bench, const std::string& engine);
/// What speaks now and belongs to no engine: a gauge's drift, readings that came while none was in use.
std::vector<Cause> causes_of_none(const Bench& bench);

/// All alerts, an open one with its cause as it stands now: figures and counts go on after it was raised.
std::vector<Alert> alerts_now(const Bench& bench);

}  // namespace tenth
