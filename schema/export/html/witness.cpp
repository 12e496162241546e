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
  if (reading.overdue && std::ranges::find(reading.doubts, Doubt::overdue) == reading.doubts.end())
    out += (out.empty() ? "" : "; ") + doubt_words(Doubt::overdue);
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

std::string found_words(const Setting& setting, Unit unit) {
  std::string found = setting.drift ? "drift " + figure(setting.drift, unit) : "first setting";
  if (setting.good) found += *setting.good ? ": " + sign(Verdict::in) + "good" : ": " + sign(Verdict::out) + "too much";
  return found + (setting.voided ? element("b", ", void") : "");
}

/// A certificate gives one place more than people read on a gauge.
std::string master_figure(Length master, Unit unit) {
  const Length step = unit == Unit::mm ? Length::from_um(1) : Length::from_pm(2'540'000);
  return fixed(master, unit, usual_places(unit) + (master.pm() % step.pm() != 0 ? 1 : 0));
}

std::string master_words(const Setting& setting, Unit unit) {
  const MasterUsed& used = setting.used;
  return master_figure(setting.master, unit) + (used.name.empty() ? "" : " " + escaped(used.name)) +
         (used.gauge.empty() ? "" : " in " + escaped(used.gauge)) + (setting.corrected ? ", corrected" : "");
}

Cells setting_cells(const Setting& setting, Unit unit) {
  return {std::to_string(setting.seq), short_time(setting.time),
          escaped(setting.gauge),      setting.sets_zero ? "set" : "checked",
          master_words(setting, unit), figure(setting.shown, unit),
          found_words(setting, unit)};
}

std::vector<Cells> settings_rows(const Bench& bench, const std::map<std::string, Bearing>& used, Unit unit) {
  std::vector<Cells> rows;
  std::set<std::string> closed;
  for (const Setting& setting : bench.settings) {
    const auto found = used.find(setting.gauge);
    if (found == used.end() || found->second.first_setting == 0 || closed.contains(setting.gauge)) continue;
    if (setting.seq < found->second.first_setting) continue;
    rows.push_back(setting_cells(setting, unit));
    if (setting.seq > found->second.last_reading && !setting.voided) closed.insert(setting.gauge);
  }
  return rows;
}

/// The calibrations that the engine's readings of a gauge rest on.
std::string calibration_words(const Bench& bench, const Engine& engine, const std::string& gauge) {
  std::set<std::int64_t> seqs;
  bool overdue = false;
  for (const Reading& reading : engine.readings) {
    if (reading.gauge != gauge || !reading.calibration) continue;
    seqs.insert(*reading.calibration);
    overdue = overdue || reading.overdue;
  }
  std::string out;
  for (const std::int64_t seq : seqs) {
    const Calibration& calibration = bench.calibrations.at(seq);
    out += (out.empty() ? "" : "; ") + escaped(calibration.certificate) + " of " + escaped(calibration.on) +
           (calibration.lab.empty() ? "" : " by " + escaped(calibration.lab)) + ", due " + escaped(calibration.due);
  }
  return out.empty() ? "none recorded" : out + (overdue ? element("b", ", overdue") : "");
}

Cells gauge_cells(const Gauge& gauge, Unit unit, const std::string& calibrations) {
  return {escaped(gauge.name),
          escaped(gauge.serial),
          escaped(gauge.profile),
          std::string(name(gauge.reads)) + ", " + std::string(name(gauge.measures)),
          figure(gauge.resolution, unit),
          figure(gauge.uncertainty, unit),
          figure(gauge.repeatability, unit),
          figure(gauge.drift, unit),
          calibrations};
}

Cells reading_cells(const Reading& r, const Engine& engine, bool counts) {
  const std::string place = r.place ? spaced(spoken(*r.place, *engine.spec)) : "no place";
  return {std::to_string(r.seq),
          time_of_day(r.time),
          escaped(place),
          escaped(r.stage),
          escaped(r.operator_name.value_or("")),
          escaped(r.gauge.value_or("by hand")),
          element("code", escaped(r.raw)),
          figure(r.size, engine.spec->unit),
          state_cell(r, counts),
          remarks(r)};
}

}  // namespace

std::string readings_markup(const Engine& engine) {
  std::set<std::int64_t> counts;
  for (const auto& [place, counting] : counting(engine)) counts.insert(counting.seqs.begin(), counting.seqs.end());
  std::vector<Cells> rows;
  std::string day;
  for (const Reading& reading : engine.readings) {
    if (day_of(reading.time) != day) rows.push_back({day = day_of(reading.time)});
    rows.push_back(reading_cells(reading, engine, counts.contains(reading.seq)));
  }
  if (rows.empty()) return element("p", "No readings.");
  return table("readings",
               {{"entry", ""},
                {"UTC", ""},
                {"place", ""},
                {"stage", ""},
                {"who", ""},
                {"gauge", ""},
                {"as received", "raw"},
                {"size", ""},
                {"state", ""},
                {"doubts and reasons", "note"}},
               rows);
}

std::string gauges_markup(const Bench& bench, const Engine& engine) {
  const Unit unit = engine.spec->unit;
  const auto used = gauges_used(engine);
  std::vector<Cells> rows;
  for (const auto& [gauge_name, bearing] : used)
    if (const auto found = bench.gauges.find(gauge_name); found != bench.gauges.end())
      rows.push_back(gauge_cells(found->second, unit, calibration_words(bench, engine, gauge_name)));
  if (rows.empty()) return element("p", "No gauge was used.");
  const std::string settings = table("settings",
                                     {{"entry", ""},
                                      {"when (UTC)", "when"},
                                      {"gauge", ""},
                                      {"act", ""},
                                      {"master", ""},
                                      {"showed", ""},
                                      {"found", ""}},
                                     settings_rows(bench, used, unit));
  return table("gauges",
               {{"gauge", ""},
                {"serial", ""},
                {"profile", ""},
                {"reads", ""},
                {"resolution", ""},
                {"uncertainty", ""},
                {"repeatability", ""},
                {"drift allowed", ""},
                {"calibration", ""}},
               rows) +
         element("h3", "Settings on a master") +
         (settings.empty() ? element("p", "None: these gauges show sizes by themselves and were not set here.")
                           : settings);
}

}  // namespace tenth::page
