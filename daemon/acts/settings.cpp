#include "daemon/acts/settings.hpp"

#include <algorithm>

#include "daemon/acts/doubting.hpp"
#include "daemon/acts/master_studies.hpp"
#include "schema/json/escape.hpp"
#include "schema/json/time.hpp"
#include "schema/wire/study_view.hpp"

namespace tenth {
namespace {

constexpr Length kFarOff = Length::from_mm(1);  ///< nothing reads so far off its master

bool has(const Reading& reading, Doubt doubt) {
  return std::find(reading.doubts.begin(), reading.doubts.end(), doubt) != reading.doubts.end();
}

/// Nothing since the last good check vouches for these. What a table says of this gauge was read at another time.
std::vector<std::int64_t> unvouched(const Bench& bench, const Gauge& gauge) {
  std::vector<std::int64_t> seqs;
  for (const Reading* reading : all_readings(bench))
    if (reading->gauge == gauge.name && reading->source != Source::imported && reading->seq > gauge.last_good_check &&
        !(reading->state != State::kept && has(*reading, Doubt::drift)))
      seqs.push_back(reading->seq);
  return seqs;
}

/// A good check vouches for the readings that were made with the setting it checked.
std::vector<std::int64_t> vouched(const Bench& bench, const Gauge& gauge) {
  std::vector<std::int64_t> seqs;
  for (const Reading* reading : all_readings(bench))
    if (reading->gauge == gauge.name && reading->setting == gauge.setting->seq && !reading->closed &&
        !has(*reading, Doubt::drift))
      seqs.push_back(reading->seq);
  return seqs;
}

/// What nobody vouches for without this good check: a later one vouches for the same zero, unless this one set it anew.
std::vector<std::int64_t> closed_by(const Bench& bench, const Setting& check) {
  const Gauge& gauge = bench.gauges.at(check.gauge);
  if (check.good != true || (!check.sets_zero && gauge.last_good_check != check.seq)) return {};
  std::int64_t before = 0;
  for (const Setting& other : bench.settings)
    if (other.gauge == check.gauge && other.good == true && !other.voided && other.seq < check.seq) before = other.seq;
  std::vector<std::int64_t> seqs;
  for (const Reading* reading : all_readings(bench))
    if (reading->gauge == check.gauge && reading->closed && reading->seq > before && reading->seq < check.seq)
      seqs.push_back(reading->seq);
  return seqs;
}

/// A gauge is checked only on the very master that it was set on: another of the same size is another one.
bool same_master(const Setting& before, Length master, const MasterUsed& used) {
  return before.master == master && before.used.name == used.name && before.used.reading == used.reading;
}

std::int64_t refuse_frame(Draft& draft, const Gauge& gauge, const Frame& frame, const char* why,
                          const std::string& text) {
  draft.append("fault", {{"gauge", gauge.name},
                         {"gauge_entry", gauge.entry},
                         {"why", why},
                         {"text", text},
                         {"raw", escape_bytes(frame.measurement.raw)},
                         {"bytes", frame.measurement.raw.size()},
                         {"count", 1}});
  return 0;
}

}  // namespace

bool is_far_off(const Awaited& awaited, Length shown) {
  return !awaited.study.empty() && (shown - *awaited.master).magnitude() > kFarOff;
}

std::int64_t take_setting(Draft& draft, const Gauge& gauge, const Awaited& awaited, const Frame& frame,
                          bool unit_differs) {
  if (frame.damaged)
    return refuse_frame(draft, gauge, frame, "damaged", "a damaged frame is no setting: press again on the master");
  if (unit_differs)
    return refuse_frame(draft, gauge, frame, "unit",
                        "the gauge shows another unit than it should: turn it, press again on the master");
  if (is_far_off(awaited, frame.measurement.value))
    return refuse_frame(draft, gauge, frame, "range", "that is not the master of this turn: press again on it");
  if (!awaited.study.empty()) return take_on_master(draft, gauge, awaited, frame);
  const std::string name = gauge.name;
  const auto& before = gauge.setting;
  const bool recheck = !awaited.master;
  if (recheck && !before)
    return refuse_frame(draft, gauge, frame, "not_set", "its setting was voided while it waited: set it on its master");
  const Length shown = frame.measurement.value;
  const Length master = recheck ? before->master : *awaited.master;
  std::optional<Length> drift;
  const MasterUsed used = recheck ? before->used : awaited.used;
  if (before && same_master(*before, master, used)) drift = (shown - before->shown).magnitude();
  const bool good = drift && *drift <= gauge.drift;
  const auto in_doubt = drift && !good ? unvouched(draft.bench(), gauge) : std::vector<std::int64_t>();
  const auto closed = good ? vouched(draft.bench(), gauge) : std::vector<std::int64_t>();
  const auto who = operator_of(draft.bench(), name);
  Json body = {{"gauge", name}, {"gauge_entry", gauge.entry}, {"master_pm", pm(master)}, {"shown_pm", pm(shown)}};
  put_used(body, used);
  body.update({{"act", recheck ? "recheck" : "master"}, {"sets_zero", !recheck}, {"drift_pm", pm(drift)}});
  body["good"] = drift ? Json(good) : Json(nullptr);
  body["previous"] = before ? Json(before->seq) : Json(nullptr);
  body.update({{"raw", escape_bytes(frame.measurement.raw)}, {"text", frame.measurement.text}});
  body["unit"] = tenth::name(frame.measurement.unit);
  body["arrived"] = rfc3339(frame.arrived.wall_us);
  body["operator"] = or_null(who);
  body["operator_entry"] = who ? Json(draft.bench().operators.at(*who).entry) : Json(nullptr);
  const std::int64_t seq = draft.append("setting", std::move(body));
  if (!in_doubt.empty()) doubt_readings(draft, in_doubt, Doubt::drift, seq);
  if (!closed.empty()) append_by_engine(draft, "closed", closed, {{"setting", seq}});
  return seq;
}

Json on_master_answer(const Bench& bench, std::int64_t seq, const std::string& study) {
  const Setting* const setting = find_setting(bench, seq);
  if (setting == nullptr) return {{"study", master_study_json(bench, bench.master_studies.at(study))}};
  return {{"setting",
           {{"gauge", setting->gauge},
            {"master_mm", mm(setting->master)},
            {"shown_mm", mm(setting->shown)},
            {"drift_mm", mm(setting->drift)},
            {"good", or_null(setting->good)}}}};
}

Result<const Reading*> clamped_at(const Draft& draft, const Gauge& other) {
  const Bench& bench = draft.bench();
  const Reading* last = nullptr;
  for (const Reading* reading : all_readings(bench))
    if (reading->gauge == other.name && (last == nullptr || reading->seq > last->seq)) last = reading;
  const std::string again = "measure with `" + other.name + "`, clamp it, and say it again";
  if (last == nullptr) return refuse("no_reading", "gauge `" + other.name + "` has no reading", again);
  const std::string which = "reading " + std::to_string(last->seq) + ", the last of gauge `" + other.name + "`,";
  if (last->state != State::kept)
    return refuse("not_kept", which + " is " + std::string(name(last->state)), "keep it, or " + again);
  if (!last->size || *last->size < Length() || *last->size > kLongest)
    return refuse("no_size", which + " has no size that a master can have", again);
  if (std::ranges::any_of(bench.settings,
                          [&](const Setting& set) { return set.gauge == other.name && set.seq > last->seq; }))
    return refuse("moved", which + " is older than its last setting or check: it is clamped there no more", again);
  const std::int64_t life_us = draft.rules().setting_life_h * 3'600'000'000;
  if (draft.now().wall_us - wall_us_from(last->time).value_or(0) > life_us)
    return refuse("old", which + " is older than " + std::to_string(draft.rules().setting_life_h) + " h", again);
  return last;
}

void put_used(Json& body, const MasterUsed& used) {
  body.update(
      {{"master", text_or_null(used.name)}, {"master_entry", or_null(used.entry)}, {"in", text_or_null(used.gauge)}});
  body.update({{"master_reading", or_null(used.reading)}, {"master_uncertainty_pm", pm(used.uncertainty)}});
}

void void_setting(Draft& draft, const Setting& setting, const std::string& reason) {
  const std::int64_t seq = setting.seq;
  const std::vector<std::int64_t> closed = closed_by(draft.bench(), setting);
  std::vector<std::int64_t> resting;
  for (const Reading* reading : all_readings(draft.bench()))
    if (reading->setting == seq && reading->state != State::voided) resting.push_back(reading->seq);
  draft.append("setting_void", {{"gauge", setting.gauge}, {"setting", seq}, {"reason", reason}});
  if (!resting.empty()) doubt_readings(draft, resting, Doubt::setting_void, seq);
  if (!closed.empty()) append_by_engine(draft, "reopened", closed, {{"setting", seq}});
}

}  // namespace tenth
