#pragma once

#include "daemon/view.hpp"
#include "rules/result.hpp"
#include "schema/json/json.hpp"

namespace tenth {

// Questions: answered from the state on disk and what is alive, changing nothing.

Result<Json> engine_list(const View&, const Json& params);
Result<Json> operator_list(const View&, const Json& params);
Result<Json> masters_list(const View& view, const Json& params);
Result<Json> gauge_list(const View&, const Json& params);
Result<Json> readings(const View&, const Json& params);
Result<Json> check(const View&, const Json& params);
Result<Json> budget(const View&, const Json& params);
Result<Json> study(const View&, const Json& params);
Result<Json> study_list(const View&, const Json& params);
Result<Json> study_bias(const View&, const Json& params);
Result<Json> study_linearity(const View&, const Json& params);
Result<Json> charts(const View&, const Json& params);
Result<Json> alerts(const View&, const Json& params);
Result<Json> status(const View&, const Json& params);
Result<Json> bench_now(const View&, const Json& params);

/// Readings that somebody has to decide on: of the engine in use, and those that belong to none.
std::ptrdiff_t suspects(const Bench&);

/// The stage of the current place's feature, else the one that began last. There is an engine in use.
std::string stage_now(const Bench&);

/// What can be done now for an engine: set or re-check a gauge, answer, measure, decide on a suspect reading.
Json ready_json(const View&, const Engine& engine);

}  // namespace tenth
