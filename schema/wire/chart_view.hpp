#pragma once

#include "rules/result.hpp"
#include "schema/json/json.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// The checks of a gauge on its masters through time: control charts, the rules that fired, the drift, and when it
/// should be set again. Refused (4, `too_few`) with fewer than two checks.
Result<Json> charts_json(const Bench& bench, const Gauge& gauge);

/// How far the gauge lies from its masters, tested (`study bias`), and whether that changes over their sizes (`study
/// linearity`): of a gauge that reads sizes, what it showed on its masters. Refused (4) where there is too little.
Result<Json> bias_json(const Bench& bench, const Gauge& gauge);
Result<Json> linearity_json(const Bench& bench, const Gauge& gauge);
/// The same of the turns that a planned study has taken so far.
Result<Json> bias_json(const Bench& bench, const MasterStudy& study);
Result<Json> linearity_json(const Bench& bench, const MasterStudy& study);

}  // namespace tenth
