#pragma once

#include <string>
#include <vector>

#include "schema/json/json.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// The JSON that leaves the process (keys and meaning: `schema/wire.md`). Lengths in millimetres under `_mm`.
/// `counts` and `carried` come from the engine the reading belongs to.
Json reading_json(const Reading& reading, bool counts, bool carried);
/// The readings of an engine by seq with `counts` set; only those that count unless `all`.
Json readings_json(const Engine& engine, bool all);
Json feature_json(const FeatureResult& result);
Json fit_json(const FitResult& result);
Json report_json(const Report& report);
/// By gauge, how many readings count that no good check of it has confirmed.
Json unconfirmed_json(const Engine& engine, const CountingMap& counts);
/// Features whose parts are at another shop: whose, and what was asked for.
Json away_json(const Engine& engine);
/// The report on an engine as `check` and the record give it: judged now, with the title and the unit of its spec.
Json check_document(const Engine& engine);
Json alert_json(const Alert& alert);

/// The keys of a reading in the order of the CSV's columns.
const std::vector<std::string>& reading_keys();

}  // namespace tenth
