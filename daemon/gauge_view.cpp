#include "daemon/gauge_view.hpp"

#include <algorithm>
#include <span>

#include "rules/figure.hpp"
#include "rules/plausible.hpp"
#include "schema/json/local_day.hpp"
#include "schema/json/time.hpp"
#include "schema/ledger/place_json.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

Json age_s(const View& view, const std::string& time) {
  const auto then = wall_us_from(time);
  return then ? Json((view.now.wall_us - *then) / 1'000'000) : Json(nullptr);
}

/// A gauge that is entered by hand has no port that could be gone.
const LiveGauge& live_of(const View& view, const Gauge& gauge) {
  if (gauge.port == "hand") {
    static const LiveGauge always = [] {
      LiveGauge live;
      live.state = "open";
      live.why.clear();
      return live;
    }();
    return always;
  }
  const auto found = view.live.find(gauge.name);
  static const LiveGauge unopened;
  return found == view.live.end() ? unopened : found->second;
}

Json frame_age_s(const View& view, const LiveGauge& live) {
  return live.last_frame_ns ? Json((view.now.mono_ns - *live.last_frame_ns) / 1'000'000'000) : Json(nullptr);
}

Json calibration_json(const Calibration& calibration) {
  return {{"seq", calibration.entry},
          {"on", calibration.on},
          {"due", calibration.due},
          {"certificate", calibration.certificate},
          {"by", text_or_null(calibration.lab)}};
}

}  // namespace

Json used_json(const MasterUsed& used) {
  return {{"master", text_or_null(used.name)}, {"in", text_or_null(used.gauge)}};
}

Json master_json(const View& view, const Master& master) {
  return {{"seq", master.entry},
          {"name", master.name},
          {"size_mm", mm(master.size)},
          {"unit", name(master.unit)},
          {"certificate", text_or_null(master.certificate)},
          {"due", text_or_null(master.due)},
          {"uncertainty_mm", mm(master.uncertainty)},
          {"overdue", !master.due.empty() && local_day(view.now.wall_us) > master.due}};
}

Json gauge_json(const View& view, const Gauge& gauge) {
  const LiveGauge& live = live_of(view, gauge);
  Json json = {{"name", gauge.name},
               {"port", gauge.port},
               {"profile", gauge.profile},
               {"reads", name(gauge.reads)},
               {"measures", name(gauge.measures)},
               {"unit", gauge.unit ? Json(name(*gauge.unit)) : Json(nullptr)},
               {"channel", text_or_null(gauge.channel)},
               {"capture", name(gauge.capture)},
               {"button", text_or_null(gauge.button)},
               {"resolution_mm", mm(gauge.resolution)},
               {"drift_mm", mm(gauge.drift)},
               {"uncertainty_mm", mm(gauge.uncertainty)},
               {"repeatability_mm", mm(gauge.repeatability)},
               {"expansion", gauge.expansion ? Json(in_millionths(*gauge.expansion)) : Json(nullptr)},
               {"serial", text_or_null(gauge.serial)},
               {"state", live.state},
               {"why", text_or_null(live.why)},
               {"age_s", frame_age_s(view, live)},
               {"setting", nullptr},
               {"awaits", nullptr},
               {"awaits_mm", nullptr},
               {"calibration", nullptr},
               {"due", nullptr},
               {"overdue", is_overdue(gauge, local_day(view.now.wall_us))}};
  if (gauge.calibration)
    json.update({{"calibration", calibration_json(*gauge.calibration)}, {"due", gauge.calibration->due}});
  if (const auto& awaited = gauge.awaited) {
    json["awaits"] = !awaited->study.empty() ? "study" : awaited->master ? "master" : "recheck";
    json["awaits_mm"] = awaited->master ? mm(*awaited->master) : gauge.setting ? mm(gauge.setting->master) : nullptr;
  }
  if (const auto& setting = gauge.setting)
    json["setting"] = {{"seq", setting->seq},
                       {"master_mm", mm(setting->master)},
                       {"shown_mm", mm(setting->shown)},
                       {"unit", name(setting->unit)},
                       {"time", setting->time},
                       {"age_s", age_s(view, setting->time)}};
  if (gauge.setting) json["setting"].update(used_json(gauge.setting->used));
  return json;
}

Json gauge_status_json(const View& view, const Gauge& gauge) {
  const Json whole = gauge_json(view, gauge);
  Json json;
  for (const char* key : {"name", "port", "state", "why", "age_s", "setting", "awaits", "awaits_mm", "due", "overdue"})
    json[key] = whole[key];
  const Reading* last = nullptr;
  for (const auto& [engine_name, engine] : view.bench.engines)
    for (const Reading& reading : engine.readings)
      if (reading.gauge == gauge.name && reading.source != Source::imported &&
          (last == nullptr || reading.seq > last->seq))
        last = &reading;
  json["last"] = last != nullptr ? reading_json(*last, false, false) : Json(nullptr);
  return json;
}

namespace {

/// When the readings of this round were kept, oldest first: of the gauge whose own round it is, else of all.
std::vector<std::int64_t> kept_on(const Engine& engine, const Standing& standing,
                                  const std::optional<std::string>& own) {
  std::vector<std::int64_t> times;
  for (auto reading = engine.readings.rbegin(); reading != engine.readings.rend() && reading->seq > standing.round->seq;
       ++reading)
    if (reading->state == State::kept && reading->source != Source::imported && (!own || reading->gauge == own))
      times.push_back(wall_us_from(reading->time).value_or(0));
  std::reverse(times.begin(), times.end());
  return times;
}

/// Seconds that the rest of the round takes at the pace so far: the median from reading to reading, which a telephone
/// call does not change. Null before there are three readings, and at the end.
Json left_s(const Engine& engine, const Standing& standing, const std::optional<std::string>& own) {
  constexpr std::size_t kFew = 3;
  const auto times = kept_on(engine, standing, own);
  if (times.size() < kFew || !standing.place) return nullptr;
  std::vector<std::int64_t> between;
  for (std::size_t i = 1; i < times.size(); ++i) between.push_back(times[i] - times[i - 1]);
  const auto middle = between.begin() + static_cast<std::ptrdiff_t>(between.size() / 2);
  std::nth_element(between.begin(), middle, between.end());
  std::int64_t left = 0;
  for (std::size_t at = standing.at; at < standing.round->places.size(); ++at)
    left += engine.spec->find(standing.round->places[at].feature)->presses;
  return std::max<std::int64_t>(0, *middle) * left / 1'000'000;
}

/// At the first place of a round: the gauges that it is walked with and that have no zero to measure from.
Json to_set(const Bench& bench, const Standing& standing, const std::optional<std::string>& own) {
  Json gauges = Json::array();
  if (standing.at != 0 || !standing.place) return gauges;
  const Kind kind = bench.engines.at(*standing.engine).spec->find(standing.place->feature)->kind;
  for (const auto& [name, gauge] : bench.gauges) {
    const bool walks = own ? name == *own : !bench.own.contains(name) && fits_kind(gauge.measures, kind);
    const bool unset = gauge.reads == Reads::deviation && !gauge.setting;
    const bool unplugged = gauge.setting && gauge.last_gone > gauge.confirmed;
    if (walks && !gauge.dropped && (gauge.drifted || unset || unplugged)) gauges.push_back(name);
  }
  return gauges;
}

/// How many of the places that lie behind nobody measured or answered.
std::size_t left_out(const Engine& engine, const CountingMap& counts, const Standing& standing, std::size_t behind) {
  if (standing.round->again || standing.round->study) return 0;
  const std::span places = std::span(standing.round->places).first(behind);
  return static_cast<std::size_t>(std::ranges::count_if(places, [&](const Place& place) {
    return !counts.contains(place) && !engine.answers.contains({place.feature, place.index});
  }));
}

/// At the end of a round: the gauges whose readings of this engine no check has confirmed yet.
Json to_recheck(const Engine& engine, const CountingMap& counts) {
  Json gauges = Json::array();
  for (const auto& [gauge, seqs] : unconfirmed(engine, counts)) gauges.push_back(gauge);
  return gauges;
}

}  // namespace

Json place_event(const Bench& bench, const std::optional<std::string>& gauge) {
  const Standing& standing = standing_of(bench, gauge);
  const bool own = gauge && bench.own.contains(*gauge);
  Json json = {{"event", "place"}, {"gauge", own ? Json(*gauge) : Json(nullptr)}, {"engine", or_null(standing.engine)}};
  put_place(json, standing.place);
  json["label"] = nullptr;
  json["where"] = nullptr;
  json["done"] = nullptr;
  json["of"] = nullptr;
  json["left_s"] = nullptr;
  json["recheck"] = json["to_set"] = Json::array();
  json["skipped"] = 0;
  if (standing.place && standing.engine) {
    const Feature* const feature = bench.engines.at(*standing.engine).spec->find(standing.place->feature);
    json["label"] = label_of(*feature, standing.place->index);
    if (!feature->where.empty()) json["where"] = feature->where;
  }
  if (standing.round && standing.round->study && standing.place) {
    const StudyTurn& turn = bench.studies.at(*standing.round->study).order.at(standing.at);
    json.update({{"study", *standing.round->study}, {"part", turn.part}, {"operator", turn.by}, {"trial", turn.trial}});
  }
  if (standing.round) {
    const std::size_t of = standing.round->places.size(), behind = standing.place ? standing.at : of;
    const Engine& engine = bench.engines.at(*standing.engine);
    const CountingMap counts = behind > 0 ? counting(engine) : CountingMap();
    const std::size_t skipped = left_out(engine, counts, standing, behind);
    json["of"] = of;
    json["done"] = behind - skipped;
    json["left_s"] = left_s(engine, standing, own ? gauge : std::nullopt);
    json["to_set"] = to_set(bench, standing, own ? gauge : std::nullopt);
    if (!standing.place) {
      json["recheck"] = to_recheck(engine, counts);
      json["skipped"] = skipped;
    }
  }
  return json;
}

}  // namespace tenth
