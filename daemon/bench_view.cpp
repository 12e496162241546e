#include "daemon/bench_view.hpp"

#include <algorithm>
#include <set>

#include "daemon/acts/causes.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/queries.hpp"
#include "rules/judge.hpp"
#include "rules/to_go.hpp"
#include "rules/words.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

constexpr std::size_t kMostLast = 4;
constexpr int kLookBack = 500;  // readings: a gauge whose last one lies further back is not in use now

Json place_view(const Bench& bench, const std::optional<std::string>& gauge) {
  const Standing& standing = standing_of(bench, gauge);
  Json json = place_event(bench, gauge);
  json.erase("event");
  json["words"] = json["next"] = nullptr;
  if (!standing.engine) return json;
  const Engine& engine = bench.engines.at(*standing.engine);
  if (standing.place) json["words"] = place_words(*standing.place, *engine.spec);
  if (!standing.place || !standing.round) return json;
  const std::size_t next = next_open(engine, *standing.round, standing.at + 1);
  if (next < standing.round->places.size()) json["next"] = place_words(standing.round->places[next], *engine.spec);
  return json;
}

/// One reading alone against the limits of size: its feature may be out for another reason.
std::optional<Verdict> size_verdict(Length size, const Limits& limits, const std::optional<Length>& uncertainty) {
  std::optional<Verdict> verdict;
  if (limits.lower) verdict = worst(verdict, zone(size, *limits.lower, Side::lower, uncertainty));
  if (limits.upper) verdict = worst(verdict, zone(size, *limits.upper, Side::upper, uncertainty));
  return verdict;
}

/// As many decimals for all as show the finest of them, so that they can be compared at a glance.
Json shown_alike(const std::map<std::string, std::optional<Length>>& lengths, Unit unit) {
  std::size_t width = 0;
  const auto places = [&](Length length) {
    const std::string text = decimals(length, unit);
    return text.size() - text.find('.') - 1;
  };
  for (const auto& [key, length] : lengths)
    if (length) width = std::max(width, places(*length));
  Json json;
  for (const auto& [key, length] : lengths)
    json[key] = length ? Json(fixed(*length, unit, static_cast<int>(width))) : Json(nullptr);
  return json;
}

void hold_against_limits(Json& json, const Reading& reading, const Engine& engine, const CountingMap& counts) {
  const Feature& feature = *engine.spec->find(reading.place->feature);
  const Limits& limits = feature.limits;
  const Unit unit = engine.spec->unit;
  const auto verdict = judge_feature(engine, counts, feature, reading.place->index).verdict;
  if (verdict) json["verdict"] = name(*verdict);
  json.update({{"words", place_words(*reading.place, *engine.spec)},
               {"shown_unit", name(unit)},
               {"low_mm", mm(limits.lower)},
               {"high_mm", mm(limits.upper)}});
  const std::optional<Length> size = reading.size_20c ? reading.size_20c : reading.size;
  std::optional<Length> target;
  if (const auto left = to_go(engine, counts, *reading.place); left) target = left->size;
  json["target_mm"] = mm(target);
  json["shown"] =
      shown_alike({{"size", size}, {"low", limits.lower}, {"high", limits.upper}, {"target", target}}, unit);
  if (!size || !limits.any()) return;
  json["size_verdict"] = name(*size_verdict(*size, limits, reading.uncertainty));
  json["against"] = against(*size, limits, unit);
}

Json last_view(const Bench& bench, const Reading& reading) {
  Json json = reading_json(reading, false, false);
  for (const char* key : {"verdict", "words", "low_mm", "high_mm", "target_mm", "size_verdict", "against"})
    json[key] = nullptr;
  json["shown_unit"] = name(reading.unit);
  json["shown"] = shown_alike({{"size", reading.size}, {"low", {}}, {"high", {}}, {"target", {}}}, reading.unit);
  json["why"] = Json::array();
  for (const Doubt doubt : reading.doubts) json["why"].push_back(plainly(doubt));
  if (!reading.engine || !reading.place) return json;
  const Engine& engine = bench.engines.at(*reading.engine);
  json["words"] = place_words(*reading.place, *engine.spec);
  if (engine.spec->find(reading.place->feature)->kind == Kind::check) return json;
  const CountingMap counts = counting(engine);
  if (const auto here = counts.find(*reading.place); here != counts.end())
    json["counts"] = std::ranges::find(here->second.seqs, reading.seq) != here->second.seqs.end();
  hold_against_limits(json, reading, engine, counts);
  return json;
}

Json open_alerts(const Bench& bench) {
  Json list = Json::array();
  for (const Alert& alert : alerts_now(bench))
    if (alert.state == AlertState::open) list.push_back(alert_json(alert));
  return list;
}

}  // namespace

std::string place_words(const Place& place, const Spec& spec) {
  std::string words = spoken(place, spec);
  std::replace(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(place.feature.size()), '_', ' ');
  return words;
}

Json bench_places(const Bench& bench) {
  Json list = Json::array({place_view(bench, std::nullopt)});
  for (const auto& [gauge, standing] : bench.own) list.push_back(place_view(bench, gauge));
  return list;
}

Json bench_last(const Bench& bench) {
  Json list = Json::array();
  std::set<std::optional<std::string>> gauges;
  int looked = 0;
  for (auto at = bench.reading_index.rbegin(); at != bench.reading_index.rend() && list.size() < kMostLast; ++at) {
    if (++looked > kLookBack) break;
    const Reading& reading = *find_reading(bench, at->first);
    if (reading.source == Source::imported) continue;  // a table that was brought in: nobody measures at it now
    if (gauges.insert(reading.gauge).second) list.push_back(last_view(bench, reading));
  }
  return list;
}

Result<Json> bench_now(const View& view, const Json&) {
  const Bench& bench = view.bench;
  Json json = {{"seq", bench.seq},
               {"engine", or_null(bench.engine)},
               {"title", nullptr},
               {"unit", nullptr},
               {"stage", nullptr},
               {"operator", or_null(bench.operator_name)},
               {"plan", Json::array()},
               {"layout", nullptr},
               {"away", Json::array()},
               {"unconfirmed", Json::array()},
               {"suspects", suspects(bench)},
               {"gauges", Json::array()}};
  json.update({{"places", bench_places(bench)}, {"last", bench_last(bench)}, {"alerts", open_alerts(bench)}});
  for (const auto& [gauge_name, gauge] : bench.gauges)
    if (!gauge.dropped) json["gauges"].push_back(gauge_json(view, gauge));
  if (!bench.engine) return json;
  const Engine& engine = bench.engines.at(*bench.engine);
  const CountingMap counts = counting(engine);
  json.update({{"title", engine.spec->title},
               {"unit", name(engine.spec->unit)},
               {"stage", stage_now(bench)},
               {"away", away_json(engine)},
               {"unconfirmed", unconfirmed_json(engine, counts)},
               {"plan", bench_plan(engine, counts)},
               {"layout", bench_layout(engine.spec->layout)}});
  return json;
}

}  // namespace tenth
