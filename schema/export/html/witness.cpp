#include "schema/export/html/witness.hpp"

#include <algorithm>
#include <set>

#include "schema/export/html/markup.hpp"
#include "schema/export/html/words.hpp"

namespace tenth::page {
namespace {

std::string state_cell(const Reading& reading, bool counts) {
  std::string out(name(reading.state));
  if (reading.state == State::kept && !counts) out += ", replaced";
  if (reading.state != State::kept) out = element("b", out);
  return out;
}

std::string remarks(const Reading& reading) {
  std::string out;
  for (const Doubt doubt : reading.doubts) out += (out.empty() ? "" : "; ") + doubt_words(doubt);
  if (reading.reason) out += (out.empty() ? "" : "; ") + ("reason: " + *reading.reason);
  return out.empty() ? " " : escaped(out);
}

/// From the setting that the first of these readings rests on to the check that closes the last.
struct Bearing {
  std::int64_t first_setting = 0, last_reading = 0;
};

std::map<std::string, Bearing> gauges_used(const Engine& engine) {
  std::map<std::string, Bearing> used;
  for (const Reading& reading : engine.readings) {
    if (!reading.gauge) continue;
    Bearing& bearing = used[*reading.gauge];
    bearing.last_reading = reading.seq;
    if (reading.setting && (bearing.first_setting == 0 || *reading.setting < bearing.first_setting))
      bearing.first_setting = *reading.setting;
  }
  return used;
}

std::string setting_row(const Setting& setting, Unit unit) {
  std::string found;
  if (setting.drift) found = "drift " + figure(setting.drift, unit) + ": ";
  if (setting.good) found += *setting.good ? mark(Verdict::in) : mark(Verdict::out) + " past the gauge's limit";
  if (setting.voided) found += element("b", " void");
  return table_row({std::to_string(setting.seq), short_time(setting.time), escaped(setting.gauge),
                    setting.sets_zero ? "set" : "checked", figure(setting.master, unit), figure(setting.shown, unit),
                    found.empty() ? "first setting" : found});
}

std::string settings_rows(const Bench& bench, const std::map<std::string, Bearing>& used, Unit unit) {
  std::string rows;
  std::set<std::string> closed;
  for (const Setting& setting : bench.settings) {
    const auto found = used.find(setting.gauge);
    if (found == used.end() || found->second.first_setting == 0 || closed.contains(setting.gauge)) continue;
    if (setting.seq < found->second.first_setting) continue;
    rows += setting_row(setting, unit);
    if (setting.seq > found->second.last_reading) closed.insert(setting.gauge);
  }
  return rows;
}

std::string gauge_row(const Gauge& gauge, Unit unit) {
  const std::string what = std::string(name(gauge.reads)) + ", " + std::string(name(gauge.measures));
  return table_row({escaped(gauge.name), escaped(gauge.serial), escaped(gauge.profile), escaped(what),
                    figure(gauge.resolution, unit), figure(gauge.uncertainty, unit), figure(gauge.repeatability, unit),
                    figure(gauge.drift, unit), "none recorded"});
}

}  // namespace

std::string readings_markup(const Engine& engine) {
  const Unit unit = engine.spec->unit;
  std::set<std::int64_t> counts;
  for (const auto& [place, counting] : counting(engine)) counts.insert(counting.seqs.begin(), counting.seqs.end());
  std::string rows;
  for (const Reading& r : engine.readings)
    rows += table_row(
        {std::to_string(r.seq), short_time(r.time), escaped(r.place ? spoken(*r.place, *engine.spec) : "no place"),
         escaped(r.stage), escaped(r.operator_name.value_or("")), escaped(r.gauge.value_or("by hand")),
         element("code", escaped(r.raw)), figure(r.size, unit), state_cell(r, counts.contains(r.seq)), remarks(r)});
  if (rows.empty()) return element("p", "No readings.");
  return table(
      "readings",
      {"entry", "when (UTC)", "place", "stage", "who", "gauge", "as received", "size", "state", "doubts and reasons"},
      rows);
}

std::string gauges_markup(const Bench& bench, const Engine& engine) {
  const Unit unit = engine.spec->unit;
  const auto used = gauges_used(engine);
  std::string rows;
  for (const auto& [gauge_name, bearing] : used)
    if (const auto found = bench.gauges.find(gauge_name); found != bench.gauges.end())
      rows += gauge_row(found->second, unit);
  if (rows.empty()) return element("p", "No gauge was used.");
  const std::string settings = settings_rows(bench, used, unit);
  return table("gauges",
               {"gauge", "serial", "profile", "reads", "resolution", "uncertainty", "repeatability", "drift allowed",
                "calibration"},
               rows) +
         element("h3", "Settings on a master") +
         (settings.empty()
              ? element("p", "None: these gauges show sizes by themselves and were not set here.")
              : table("settings", {"entry", "when (UTC)", "gauge", "act", "master", "showed", "found"}, settings));
}

}  // namespace tenth::page
