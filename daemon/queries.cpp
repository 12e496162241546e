#include "daemon/queries.hpp"

#include <algorithm>

#include "daemon/acts/causes.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "rules/couples.hpp"
#include "schema/json/time.hpp"
#include "schema/wire/budget_view.hpp"
#include "schema/wire/views.hpp"

namespace tenth {

Result<Json> engine_list(const View& view, const Json&) {
  Json list = Json::array();
  for (const auto& [name, engine] : view.bench.engines)
    list.push_back({{"engine", name},
                    {"title", engine.spec->title},
                    {"spec", engine.spec_seq},
                    {"in_use", view.bench.engine == name},
                    {"readings", engine.readings.size()}});
  return list;
}

Result<Json> operator_list(const View& view, const Json&) {
  Json list = Json::array();
  for (const auto& [name, known] : view.bench.operators) {
    Json gauges = Json::array();
    for (const auto& [gauge, who] : view.bench.gauge_operators)
      if (who == name) gauges.push_back(gauge);
    list.push_back({{"operator", name},
                    {"user", text_or_null(known.user)},
                    {"in_use", view.bench.operator_name == name},
                    {"gauges", gauges}});
  }
  return list;
}

Result<Json> gauge_list(const View& view, const Json&) {
  Json list = Json::array();
  for (const auto& [name, gauge] : view.bench.gauges)
    if (!gauge.dropped) list.push_back(gauge_json(view, gauge));
  return list;
}

Result<Json> masters_list(const View& view, const Json&) {
  Json list = Json::array();
  for (const auto& [name, master] : view.bench.masters)
    if (!master.dropped) list.push_back(master_json(view, master));
  return list;
}

namespace {

struct Filter {
  std::optional<std::string> feature, gauge;
  std::optional<std::int64_t> index, since_us;

  bool passes(const Json& reading) const {
    if (feature && reading["feature"] != *feature) return false;
    if (index && reading["index"] != *index) return false;
    if (gauge && reading["gauge"] != *gauge) return false;
    return !since_us || wall_us_from(reading["time"].get<std::string>()).value_or(0) >= *since_us;
  }
};

Result<Filter> filter_of(const View& view, const Json& object, const Engine* engine) {
  const Params params(object);
  Filter filter;
  TENTH_TRY(const std::optional<std::string> feature, params.maybe_text("feature"));
  TENTH_TRY(const std::optional<std::string> index, params.maybe_text("index"));
  TENTH_TRY(const std::optional<std::string> gauge, params.maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> since, params.maybe_text("since"));
  if (index && !feature) return wrong_words("index", "an index belongs to a feature", "add --feature NAME");
  if (feature) {
    TENTH_TRY(const Feature* const known, find_feature(*engine->spec, *feature));
    filter.feature = known->name;
    if (index) {
      TENTH_TRY(filter.index, find_index(*known, *index));
    }
  }
  if (gauge && !view.bench.gauges.contains(*gauge))  // one that was dropped has readings still
    return tl::unexpected(gauge_named(view.bench, *gauge).error());
  filter.gauge = gauge;
  if (since) {
    filter.since_us = wall_us_from(*since);
    if (!filter.since_us)
      return wrong_words("time", "`" + *since + "` is no time", "give it like 2026-03-01T08:15:00Z");
  }
  return filter;
}

}  // namespace

Result<Json> readings(const View& view, const Json& object) {
  const Params params(object);
  TENTH_TRY(const bool all, params.flag("all"));
  TENTH_TRY(const std::optional<std::string> name, params.maybe_text("engine"));
  static const Engine kNone{"", 0, std::make_shared<const Spec>(), {}, {}, {}};
  const Engine* engine = &kNone;  // with no engine there may be readings that belong to none
  if (name || view.bench.engine) {
    TENTH_TRY(engine, engine_or_used(view.bench, name));
  }
  TENTH_TRY(const Filter filter, filter_of(view, object, engine));
  Json whole = readings_json(*engine, all);
  if (all && !name)
    for (const Reading& reading : view.bench.placeless) whole.push_back(reading_json(reading, false, false));
  std::sort(whole.begin(), whole.end(), [](const Json& a, const Json& b) { return a["seq"] < b["seq"]; });
  Json list = Json::array();
  for (Json& reading : whole)
    if (filter.passes(reading)) list.push_back(std::move(reading));
  return list;
}

Result<Json> check(const View& view, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::string> name, params.maybe_text("engine"));
  TENTH_TRY(const bool ready, params.flag("ready"));
  TENTH_TRY(const Engine* const engine, engine_or_used(view.bench, name));
  Json report = check_document(*engine);
  if (ready) report["ready"] = ready_json(view, *engine);
  return report;
}

Result<Json> budget(const View& view, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::string> name, params.maybe_text("engine"));
  TENTH_TRY(const std::string word, params.text("fit"));
  TENTH_TRY(const std::string label, params.text("index"));
  TENTH_TRY(const Engine* const engine, engine_or_used(view.bench, name));
  TENTH_TRY(const Fit* const fit, find_fit(*engine->spec, word));
  TENTH_TRY(const int index, find_index(*engine->spec->find(fit->inside), label));
  const std::vector<Couple> couples = couples_of(*engine, *fit);
  const auto couple =
      std::find_if(couples.begin(), couples.end(), [index](const Couple& each) { return each.inside_index == index; });
  if (couple == couples.end() || couple->outside_index == 0)
    return refuse("no_partner", fit->inside + " " + label + " has no partner in " + fit->name,
                  "give it one: `tenth mate " + fit->name + " " + label + " OUTSIDE_INDEX`");
  return budget_json(*engine, *fit, *couple);
}

Result<Json> alerts(const View& view, const Json& object) {
  TENTH_TRY(const bool all, Params(object).flag("all"));
  Json list = Json::array();
  for (const Alert& alert : alerts_now(view.bench))
    if (all || alert.state == AlertState::open) list.push_back(alert_json(alert));
  return list;
}

std::string stage_now(const Bench& bench) {
  const Engine& engine = bench.engines.at(*bench.engine);
  if (bench.common.place) return stage_of(engine, bench.common.place->feature).name;
  Stage newest;
  for (const auto& [feature, stages] : engine.stages)
    if (stages.back().entry >= newest.entry) newest = stages.back();
  return newest.name;
}

namespace {

std::string in_celsius(Warmth temperature) {
  constexpr std::int64_t k20_ninths_uk = 20'000'000LL * 9;
  return in_kelvins({temperature.ninths_uk + k20_ninths_uk});
}

/// How warm parts and gauge are, as told last; "" stands for the features not named.
Json warmths_now(const View& view) {
  Json list = Json::array();
  for (const auto& [feature, entry] : view.bench.warmths.by_feature) {
    const Told& told = view.bench.temperatures.at(entry);
    const Temperatures& warm = told.temperatures;
    list.push_back({{"feature", text_or_null(feature)},
                    {"part", in_celsius(warm.part)},
                    {"gauge", warm.gauge ? Json(in_celsius(*warm.gauge)) : Json(nullptr)},
                    {"within", warm.within ? Json(in_kelvins(*warm.within)) : Json(nullptr)},
                    {"age_s", (view.now.wall_us - wall_us_from(told.time).value_or(0)) / 1'000'000}});
  }
  return list;
}

}  // namespace

std::ptrdiff_t suspects(const Bench& bench) {
  std::ptrdiff_t count = std::ranges::count(bench.placeless, State::suspect, &Reading::state);
  if (bench.engine)
    count += std::ranges::count(bench.engines.at(*bench.engine).readings, State::suspect, &Reading::state);
  return count;
}

Result<Json> status(const View& view, const Json&) {
  const Bench& bench = view.bench;
  Json json = {{"version", TENTH_VERSION},
               {"ledger", {{"id", bench.id}, {"seq", bench.seq}, {"hash", view.head_hash}, {"waiting", view.waiting}}},
               {"engine", or_null(bench.engine)},
               {"operator", or_null(bench.operator_name)},
               {"stage", nullptr},
               {"places", Json::array({place_event(bench, std::nullopt)})},
               {"gauges", Json::array()},
               {"disk", {{"free_bytes", view.free_bytes}}}};
  if (bench.engine) json["stage"] = stage_now(bench);
  for (const auto& [gauge, standing] : bench.own) json["places"].push_back(place_event(bench, gauge));
  for (const auto& [name, gauge] : bench.gauges)
    if (!gauge.dropped) json["gauges"].push_back(gauge_status_json(view, gauge));
  json["temperature"] = warmths_now(view);
  json["suspects"] = suspects(bench);
  json["alerts"] = std::count_if(bench.alerts.begin(), bench.alerts.end(),
                                 [](const Alert& alert) { return alert.state == AlertState::open; });
  json["in_session"] = {{"sound", view.in_session.sound}, {"desktop", view.in_session.desktop}};
  return json;
}

}  // namespace tenth
