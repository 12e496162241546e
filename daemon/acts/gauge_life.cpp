#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/doubting.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "schema/json/local_day.hpp"
#include "schema/json/time.hpp"

namespace tenth {
namespace {

Result<std::string> needed_day(const Params& params, const char* key) {
  TENTH_TRY(const std::optional<std::string> day, params.maybe_day(key));
  if (!day)
    return wrong_words("day", "a calibration has the days `on` and `due`",
                       "add --" + std::string(key) + " such as 2026-03-01");
  return *day;
}

/// A time, or a day that begins where the daemon runs.
Result<std::int64_t> since_of(const Params& params) {
  TENTH_TRY(const std::string since, params.text("since"));
  const auto us = is_day(since) ? day_begins_us(since) : wall_us_from(since);
  if (!us)
    return wrong_words("time", "`" + since + "` is no time",
                       "give it like 2026-03-01T08:15:00Z, or a day such as 2026-03-01");
  return *us;
}

/// Also one that was dropped: what it measured stays.
Result<const Gauge*> gauge_ever(const Bench& bench, const std::string& name) {
  if (const auto found = bench.gauges.find(name); found != bench.gauges.end()) return &found->second;
  return gauge_named(bench, name);
}

/// Rows of tables are as old as the table says; where it does not say, they are of when they were brought.
std::int64_t measured_us(const Reading& reading) {
  if (const auto day_us = day_begins_us(reading.measured_at)) return *day_us;
  return wall_us_from(reading.measured_at.empty() ? reading.time : reading.measured_at).value_or(0);
}

/// The readings of a gauge since then that are not in this doubt already; void ones too, for whoever keeps them later.
std::vector<std::int64_t> readings_since(const Bench& bench, const std::string& gauge, std::int64_t since_us) {
  std::vector<std::int64_t> seqs;
  for (const Reading* reading : all_readings(bench)) {
    const bool doubted = std::ranges::find(reading->doubts, Doubt::gauge) != reading->doubts.end();
    if (reading->gauge == gauge && reading->state != State::claimed && measured_us(*reading) >= since_us &&
        !(reading->state != State::kept && doubted))
      seqs.push_back(reading->seq);
  }
  std::ranges::sort(seqs);
  return seqs;
}

}  // namespace

Decided gauge_calibrate(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string certificate, params.text("certificate"));
  TENTH_TRY(const std::optional<std::string> lab, params.maybe_text("by"));
  TENTH_TRY(const std::string on, needed_day(params, "on"));
  TENTH_TRY(const std::string due, needed_day(params, "due"));
  if (due < on)
    return wrong_words("day", "the calibration would be due on " + due + ", before it was made on " + on,
                       "see the certificate");
  if (on > local_day(draft.now().wall_us))
    return refuse("day", "the calibration would be made on " + on + ", which is yet to come",
                  "see the certificate, and the machine's clock");
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), asked));
  const std::string name = gauge->name;
  TENTH_TRY(const std::optional<Unit> bare, params.unit(gauge->unit ? gauge->unit : spec_unit(draft.bench())));
  TENTH_TRY(const std::optional<Length> uncertainty, params.maybe_amount("uncertainty", bare));
  Json body = {{"gauge", name}, {"gauge_entry", gauge->entry}, {"on", on}, {"due", due}, {"certificate", certificate}};
  body.update({{"lab", or_null(lab)}, {"uncertainty_pm", pm(uncertainty)}});
  body["previous"] = gauge->calibration ? Json(gauge->calibration->entry) : Json(nullptr);
  draft.append("calibration", std::move(body));
  return [name](const View& view) { return gauge_json(view, view.bench.gauges.at(name)); };
}

Decided gauge_doubt(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::int64_t since_us, since_of(params));
  TENTH_TRY(const std::string reason, reason_of(params));
  TENTH_TRY(const Gauge* const gauge, gauge_ever(draft.bench(), asked));
  const std::string name = gauge->name, since = rfc3339(since_us);
  const std::vector<std::int64_t> seqs = readings_since(draft.bench(), name, since_us);
  const std::int64_t act = draft.append(
      "gauge_doubt", {{"gauge", name}, {"gauge_entry", gauge->entry}, {"since", since}, {"reason", reason}});
  append_by_engine(draft, "doubt", seqs,
                   {{"doubt", tenth::name(Doubt::gauge)},
                    {"setting", nullptr},
                    {"gauge", name},
                    {"gauge_doubt", act},
                    {"reason", reason}});
  Json answer = {{"gauge", name}, {"since", since}, {"seqs", seqs}};
  return [answer = std::move(answer)](const View&) { return answer; };
}

}  // namespace tenth
