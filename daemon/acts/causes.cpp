#include "daemon/acts/causes.hpp"

#include <algorithm>
#include <map>

#include "daemon/acts/doubting.hpp"
#include "daemon/acts/gauge_causes.hpp"

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

}  // namespace

std::vector<Cause> causes_of(const Bench& bench, const std::string& name) {
  const Engine& engine = bench.engines.at(name);
  std::vector<Cause> all = causes(engine, judge(engine));
  for (Cause& cause : gauge_causes(bench, engine)) all.push_back(std::move(cause));
  return all;
}

std::vector<Cause> causes_of_none(const Bench& bench) {
  std::vector<Cause> all;
  for (const auto& [name, gauge] : bench.gauges)
    if (auto cause = drift_of(bench, gauge)) all.push_back(std::move(*cause));
  if (auto cause = placeless_of(bench)) all.push_back(std::move(*cause));
  return all;
}

std::vector<Alert> alerts_now(const Bench& bench) {
  std::map<std::optional<std::string>, std::vector<Cause>> now;  // by engine
  std::vector<Alert> alerts = bench.alerts;
  for (Alert& alert : alerts) {
    if (alert.state != AlertState::open) continue;
    const auto& engine = alert.cause.engine;
    const auto [found, fresh] = now.try_emplace(engine);
    if (fresh) found->second = engine ? causes_of(bench, *engine) : causes_of_none(bench);
    if (const Cause* const cause = cause_of(alert, found->second)) alert.cause = *cause;
  }
  return alerts;
}

}  // namespace tenth
