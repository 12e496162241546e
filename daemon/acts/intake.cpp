#include "daemon/acts/intake.hpp"

#include <algorithm>

#include "daemon/acts/settings.hpp"
#include "daemon/acts/standing.hpp"
#include "rules/figure.hpp"
#include "rules/place.hpp"
#include "rules/plausible.hpp"
#include "schema/json/escape.hpp"
#include "schema/json/local_day.hpp"
#include "schema/json/time.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

bool setting_is_old(const Gauge& gauge, const Draft& draft) {
  if (!gauge.setting) return false;
  const auto confirmed = wall_us_from(gauge.confirmed_time).value_or(0);
  const std::int64_t life_us = draft.rules().setting_life_h * 3'600'000'000;
  return gauge.last_gone > gauge.confirmed || draft.now().wall_us - confirmed > life_us;
}

std::vector<Doubt> doubts_of(const Draft& draft, const Value& value, const Standing& standing, const Gauge* gauge,
                             std::optional<Length> size, bool overdue) {
  std::vector<Doubt> doubts;
  if (!standing.place || !standing.engine)
    doubts.push_back(Doubt::no_place);
  else
    doubts = doubts_at(draft.bench().engines.at(*standing.engine), *standing.place,
                       gauge == nullptr ? Measures::any : gauge->measures, size);
  if (!size) doubts.push_back(Doubt::no_setting);
  if (gauge != nullptr && setting_is_old(*gauge, draft)) doubts.push_back(Doubt::setting_old);
  if (value.unit_differs) doubts.push_back(Doubt::unit);
  if (value.too_soon) doubts.push_back(Doubt::too_soon);
  if (value.damaged) doubts.push_back(Doubt::damaged);
  if (overdue && draft.rules().overdue_suspect) doubts.push_back(Doubt::overdue);
  std::sort(doubts.begin(), doubts.end());
  return doubts;
}

void put_where(Json& body, const Draft& draft, const Standing& standing) {
  const auto engine = standing.engine ? standing.engine : draft.bench().engine;
  body["engine"] = or_null(engine);
  put_place(body, standing.place);
  body.update(
      {{"label", nullptr}, {"stage", nullptr}, {"stage_entry", nullptr}, {"spec", nullptr}, {"place", nullptr}});
  if (!engine) return;
  const Engine& known = draft.bench().engines.at(*engine);
  body["spec"] = known.spec_seq;
  if (!standing.place) return;
  const Stage& stage = stage_of(known, standing.place->feature);
  body["place"] = standing.seq;
  body["label"] = label_of(*known.spec->find(standing.place->feature), standing.place->index);
  body["stage"] = stage.name;
  body["stage_entry"] = number_or_null(stage.entry);
}

/// What was told of the part's temperature, while that is not too old, and the size at 20 °C that follows.
void put_temperature(Json& body, const Draft& draft, std::optional<Length> size, const Gauge* gauge,
                     const Standing& standing) {
  body.update({{"temperature", nullptr}, {"size_20c_pm", nullptr}});
  if (!standing.engine || !standing.place) return;
  const Told* const told = temperature_of(draft.bench(), *standing.engine, standing.place->feature);
  const std::int64_t life_us = draft.rules().temperature_life_h * 3'600'000'000;
  if (told == nullptr || draft.now().wall_us - wall_us_from(told->time).value_or(0) > life_us) return;
  Reading reading;
  reading.place = standing.place;
  reading.size = size;
  reading.temperatures = told->temperatures;
  if (gauge != nullptr) reading.gauge_expansion = gauge->expansion.value_or(kGaugeExpansion);
  body["temperature"] = told->temperatures.entry;
  body["size_20c_pm"] = pm(size_20c_of(reading, *draft.bench().engines.at(*standing.engine).spec));
}

void put_who(Json& body, const Draft& draft, const Value& value, const Gauge* gauge) {
  const auto who = operator_of(draft.bench(), value.gauge);
  body["operator"] = or_null(who);
  body["operator_entry"] = who ? Json(draft.bench().operators.at(*who).entry) : Json(nullptr);
  body["gauge"] = or_null(value.gauge);
  body["gauge_entry"] = gauge != nullptr ? Json(gauge->entry) : Json(nullptr);
  body["calibration"] = gauge != nullptr && gauge->calibration ? Json(gauge->calibration->entry) : Json(nullptr);
  body["profile"] = gauge != nullptr ? Json(gauge->profile_sha256) : Json(nullptr);
  body["setting"] = gauge != nullptr && gauge->setting ? Json(gauge->setting->seq) : Json(nullptr);
  body["program"] = "tenthd " TENTH_VERSION;
}

/// The stream itself, beside the reading that was made of it.
void keep_stream(Draft& draft, const Value& value, std::int64_t reading, const Json& engine) {
  draft.append("stream",
               {{"gauge", *value.gauge}, {"engine", engine}, {"reading", reading}, {"samples", value.turned->samples}});
}

}  // namespace

std::optional<Length> size_of(const Gauge* gauge, Length shown) {
  if (gauge == nullptr) return shown;
  if (const auto& setting = gauge->setting) return setting->master + (shown - setting->shown);
  if (gauge->reads == Reads::size) return shown;
  return std::nullopt;
}

bool waited_too_long(const Awaited& awaited, const Instant& arrived) {
  return awaited.study.empty() && arrived.wall_us - wall_us_from(awaited.time).value_or(0) >= kAwait_us;
}

std::vector<Doubt> doubts_at(const Engine& engine, const Place& place, Measures measures, std::optional<Length> size) {
  const Feature& feature = *engine.spec->find(place.feature);
  std::vector<Doubt> doubts;
  if (!fits_kind(measures, feature.kind)) doubts.push_back(Doubt::wrong_kind);
  if (is_away(engine, place.feature)) doubts.push_back(Doubt::away);
  if (!size || feature.kind == Kind::check) return doubts;
  const auto kept = kept_at(engine, place);
  for (const Doubt doubt : doubts_of_size(feature, *size, kept.empty() ? std::nullopt : kept.back()->size))
    doubts.push_back(doubt);
  return doubts;
}

namespace {

/// A turn of a study stands for the operator it was planned for; for others there is no place.
Standing for_whom_it_stands(const Draft& draft, const Value& value, Standing standing) {
  if (!standing.round || !standing.round->study || !standing.place) return standing;
  const StudyTurn& turn = draft.bench().studies.at(*standing.round->study).order.at(standing.at);
  if (operator_of(draft.bench(), value.gauge) != turn.by) standing.place.reset();
  return standing;
}

}  // namespace

std::int64_t take_value(Draft& draft, const Value& value, const Standing& chosen) {
  const Standing standing = for_whom_it_stands(draft, value, chosen);
  const Gauge* const gauge = value.gauge ? &draft.bench().gauges.at(*value.gauge) : nullptr;
  const std::optional<Length> size = size_of(gauge, value.value);
  const Instant arrived = value.arrived.value_or(draft.now());
  const bool overdue = gauge != nullptr && is_overdue(*gauge, local_day(arrived.wall_us));
  const std::vector<Doubt> doubts = doubts_of(draft, value, standing, gauge, size, overdue);
  Json body = {{"raw", value.raw},
               {"text", value.text},
               {"unit", name(value.unit)},
               {"value_pm", pm(value.value)},
               {"size_pm", pm(size)},
               {"source", name(value.source)},
               {"note", or_null(value.note)},
               {"reason", nullptr},
               {"moved_from", nullptr},
               {"closed", false},
               {"overdue", overdue},
               {"dropped", value.dropped}};
  body["state"] = name(doubts.empty() ? State::kept : State::suspect);
  body["doubts"] = Json::array();
  for (const Doubt doubt : doubts) body["doubts"].push_back(name(doubt));
  body["arrived"] = rfc3339(arrived.wall_us);
  put_where(body, draft, standing);
  put_who(body, draft, value, gauge);
  put_temperature(body, draft, size, gauge, standing);
  body["spread_pm"] = value.turned ? Json(value.turned->turning.spread.pm()) : Json(nullptr);
  body["passes"] = value.turned ? Json(value.turned->turning.passes) : Json(nullptr);
  const Json engine = body["engine"];
  const std::int64_t seq = draft.append("reading", std::move(body));
  if (value.turned) keep_stream(draft, value, seq, engine);
  if (doubts.empty()) advance(draft, value.gauge, *standing.engine, *standing.place);
  return seq;
}

std::int64_t take_frame(Draft& draft, const Frame& frame) {
  const Gauge& gauge = draft.bench().gauges.at(frame.gauge);
  auto awaited = frame.before ? frame.before->awaited : gauge.awaited;
  if (awaited && waited_too_long(*awaited, frame.arrived)) awaited.reset();
  const bool unit_differs = gauge.unit && *gauge.unit != frame.measurement.unit;
  if (awaited) return take_setting(draft, gauge, *awaited, frame, unit_differs);
  Standing standing = frame.before ? frame.before->standing : standing_of(draft.bench(), frame.gauge);
  // The place before may be one that a spec under way has taken out since.
  if (standing.place && !has_place(*draft.bench().engines.at(*standing.engine).spec, *standing.place))
    standing.place.reset();
  Value value;
  value.gauge = frame.gauge;
  value.raw = escape_bytes(frame.measurement.raw);
  value.text = frame.measurement.text;
  value.unit = frame.measurement.unit;
  value.value = frame.measurement.value;
  value.unit_differs = unit_differs;
  value.too_soon = standing.round && frame.since_last_ns &&
                   *frame.since_last_ns < frame.settle_ms.value_or(draft.rules().settle_ms) * 1'000'000;
  value.damaged = frame.damaged;
  value.arrived = frame.arrived;
  value.dropped = frame.dropped;
  value.turned = frame.turned;
  return take_value(draft, value, standing);
}

void take_fault(Draft& draft, const PortFault& fault) {
  const Gauge& gauge = draft.bench().gauges.at(fault.gauge);
  draft.append("fault", {{"gauge", fault.gauge},
                         {"gauge_entry", gauge.entry},
                         {"why", drivers::name(fault.fault.why)},
                         {"text", printable(valid_utf8(fault.fault.text))},  // it may name bytes of the wire
                         {"raw", escape_bytes(fault.fault.raw)},
                         {"bytes", fault.fault.bytes},
                         {"count", fault.count}});
}

void take_link(Draft& draft, const std::string& gauge, const std::string& state, const std::string& why,
               const std::string& device) {
  if (draft.bench().gauges.at(gauge).dropped) return;
  draft.append("link",
               {{"gauge", gauge}, {"state", state}, {"why", text_or_null(why)}, {"device", text_or_null(device)}});
}

}  // namespace tenth
