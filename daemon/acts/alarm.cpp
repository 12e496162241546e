#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/doubting.hpp"
#include "daemon/acts/gauge_causes.hpp"
#include "daemon/params.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

/// The check that told of a gauge's drift.
const Setting* last_bad(const Bench& bench, const std::string& gauge) {
  const auto found = std::find_if(bench.settings.rbegin(), bench.settings.rend(), [&](const Setting& setting) {
    return setting.gauge == gauge && setting.good == false;
  });
  return found == bench.settings.rend() ? nullptr : &*found;
}

/// A gauge whose last check was past its limit, or whose readings are still in doubt for that: one alert, of no engine.
std::optional<Cause> drift_of(const Bench& bench, const Gauge& gauge) {
  Cause cause{std::nullopt, AlertWhat::drift, Severity::stop, gauge.name, "", std::nullopt, gauge.drift, {}};
  for (const Reading* reading : all_readings(bench))
    if (reading->gauge == gauge.name && reading->state == State::suspect &&
        std::find(reading->doubts.begin(), reading->doubts.end(), Doubt::drift) != reading->doubts.end())
      cause.seqs.push_back(reading->seq);
  if ((!gauge.drifted || gauge.dropped) && cause.seqs.empty()) return std::nullopt;
  std::sort(cause.seqs.begin(), cause.seqs.end());
  const Setting* const check = last_bad(bench, gauge.name);
  if (check != nullptr) cause.value = check->drift;
  const Unit unit = gauge.unit.value_or(Unit::mm);
  cause.text = "gauge " + gauge.name + " drifted by " +
               (cause.value ? fixed(*cause.value, unit, usual_places(unit) + 1) : std::string("?")) + " " +
               std::string(name(unit)) + " on its master; " + std::to_string(cause.seqs.size()) +
               " readings since its last good check are in doubt";
  return cause;
}

/// Readings that came while no engine was in use wait for somebody to say where they belong.
std::optional<Cause> placeless_of(const Bench& bench) {
  Cause cause{std::nullopt, AlertWhat::suspect, Severity::look, "no engine", "", std::nullopt, std::nullopt, {}};
  for (const Reading& reading : bench.placeless)
    if (reading.state == State::suspect) cause.seqs.push_back(reading.seq);
  if (cause.seqs.empty()) return std::nullopt;
  cause.text = std::to_string(cause.seqs.size()) +
               " readings came while no engine was in use: move them to their places, or void them";
  return cause;
}

Json cause_body(const Cause& cause) {
  return {{"engine", or_null(cause.engine)},
          {"severity", name(cause.severity)},
          {"what", name(cause.what)},
          {"subject", cause.subject},
          {"text", cause.text},
          {"value_pm", pm(cause.value)},
          {"limit_pm", pm(cause.limit)},
          {"seqs", cause.seqs}};
}

void tell(Draft& draft, const std::vector<Alert>& alerts, const std::vector<Cause>& now) {
  const AlertChanges changes = compare(alerts, now);
  for (const Cause& cause : changes.raise) draft.append("alert", cause_body(cause));
  for (const std::int64_t id : changes.end) {
    const auto ended = std::find_if(alerts.begin(), alerts.end(), [id](const Alert& alert) { return alert.id == id; });
    draft.append("alert_end", {{"alert", id}, {"engine", or_null(ended->cause.engine)}});
  }
}

/// The alerts that a set of causes is compared with: those of one engine, or those of none.
std::vector<Alert> alerts_of(const Bench& bench, const std::optional<std::string>& engine) {
  std::vector<Alert> alerts;
  std::copy_if(bench.alerts.begin(), bench.alerts.end(), std::back_inserter(alerts), [&](const Alert& alert) {
    return alert.cause.engine == engine && alert.state != AlertState::ended && alert.lasting;
  });
  return alerts;
}

}  // namespace

void tell_alerts(Draft& draft) {
  const auto touched = draft.touched();
  for (const std::string& name : touched) {
    const Engine& engine = draft.bench().engines.at(name);
    auto now = causes(engine, judge(engine));
    for (Cause& cause : gauge_causes(draft.bench(), engine)) now.push_back(std::move(cause));
    tell(draft, alerts_of(draft.bench(), name), now);
  }
  if (!draft.bench_touched()) return;
  std::vector<Cause> now;
  for (const auto& [name, gauge] : draft.bench().gauges)
    if (auto cause = drift_of(draft.bench(), gauge)) now.push_back(std::move(*cause));
  if (auto cause = placeless_of(draft.bench())) now.push_back(std::move(*cause));
  tell(draft, alerts_of(draft.bench(), std::nullopt), now);
}

Decided alerts_clear(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> id, params.maybe_number("id"));
  TENTH_TRY(const std::string note, params.words("note"));
  const auto& alerts = draft.bench().alerts;
  const auto found = std::find_if(alerts.begin(), alerts.end(), [&](const Alert& alert) { return alert.id == id; });
  if (found == alerts.end())
    return refuse("unknown_alert", "there is no alert " + (id ? std::to_string(*id) : std::string("without a number")),
                  "`tenth alerts --all` shows them");
  if (found->state == AlertState::cleared)
    return refuse("cleared", "that alert is cleared already", "nothing is left to do");
  draft.append("alert_clear", {{"alert", *id}, {"engine", or_null(found->cause.engine)}, {"note", note}});
  return [id = *id](const View& view) {
    const auto& all = view.bench.alerts;
    return alert_json(*std::find_if(all.begin(), all.end(), [id](const Alert& alert) { return alert.id == id; }));
  };
}

}  // namespace tenth
