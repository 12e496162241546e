#include "schema/export/paper/gauges.hpp"

#include <set>

#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

/// From the setting that the first of these readings rests on to the check that closes the last.
struct Bearing {
  std::int64_t first_setting = 0, last_reading = 0;
};

std::map<std::string, Bearing> gauges_used(const std::vector<Reading>& readings) {
  std::map<std::string, Bearing> used;
  for (const Reading& reading : readings) {
    if (!reading.gauge) continue;
    Bearing& bearing = used[*reading.gauge];
    bearing.last_reading = reading.seq;
    if (reading.setting && (bearing.first_setting == 0 || *reading.setting < bearing.first_setting))
      bearing.first_setting = *reading.setting;
  }
  return used;
}

Line found_line(const Setting& setting, Unit unit) {
  Line found = {{setting.drift ? "drift " + figure(setting.drift, unit) : "first setting"}};
  if (setting.good) {
    found.front().text += ": ";
    found.push_back({*setting.good ? "good" : "too much", Face::plain, *setting.good ? Sign::in : Sign::out});
  }
  if (setting.voided) found.push_back({", void", Face::bold});
  return found;
}

std::string master_words(const Setting& setting, Unit unit) {
  const MasterUsed& used = setting.used;
  return whole_figure(setting.master, unit) + (used.name.empty() ? "" : " " + used.name) +
         (used.gauge.empty() ? "" : " in " + used.gauge) + (setting.corrected ? ", corrected" : "");
}

Cells setting_cells(const Setting& setting, Unit unit) {
  return {std::to_string(setting.seq),
          short_time(setting.time),
          setting.gauge,
          std::string(setting.sets_zero ? "set" : "checked"),
          master_words(setting, unit),
          whole_figure(setting.shown, unit),
          found_line(setting, unit)};
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

/// The calibrations that the readings of a gauge rest on.
Line calibration_line(const Bench& bench, const std::vector<Reading>& readings, const std::string& gauge) {
  std::set<std::int64_t> seqs;
  bool overdue = false;
  for (const Reading& reading : readings) {
    if (reading.gauge != gauge || !reading.calibration) continue;
    seqs.insert(*reading.calibration);
    overdue = overdue || reading.overdue;
  }
  if (seqs.empty()) return {{"none recorded"}};
  std::string out;
  for (const std::int64_t seq : seqs) {
    const Calibration& calibration = bench.calibrations.at(seq);
    out += (out.empty() ? "" : "; ") + calibration.certificate + " of " + calibration.on +
           (calibration.lab.empty() ? "" : " by " + calibration.lab) + ", due " + calibration.due;
  }
  return {{out}, {overdue ? ", overdue" : "", Face::bold}};
}

Cells gauge_cells(const Gauge& gauge, Unit unit, Line calibrations) {
  return {gauge.name,
          gauge.serial,
          gauge.profile,
          std::string(name(gauge.reads)) + ", " + std::string(name(gauge.measures)),
          whole_figure(gauge.resolution, unit),
          whole_figure(gauge.uncertainty, unit),
          whole_figure(gauge.repeatability, unit),
          whole_figure(gauge.drift, unit),
          std::move(calibrations)};
}

Part gauges_part(std::vector<Cells> rows) {
  if (rows.empty()) return {"", {said("No gauge was used.")}};
  return {"",
          {Table{Density::list,
                 {{"gauge"},
                  {"serial"},
                  {"profile"},
                  {"reads"},
                  {"resolution"},
                  {"uncertainty"},
                  {"repeatability"},
                  {"drift allowed"},
                  {"calibration", Manner::note}},
                 std::move(rows)}}};
}

Part settings_part(std::vector<Cells> rows) {
  Part part{"Settings on a master", {}};
  if (rows.empty())
    part.blocks.emplace_back(said("None: these gauges show sizes by themselves and were not set here."));
  else
    part.blocks.emplace_back(
        Table{Density::list,
              {{"entry"}, {"when (UTC)"}, {"gauge"}, {"act"}, {"master"}, {"showed"}, {"found", Manner::note}},
              std::move(rows)});
  return part;
}

}  // namespace

std::vector<Part> gauges_parts(const Bench& bench, const std::vector<Reading>& readings, Unit unit) {
  const auto used = gauges_used(readings);
  std::vector<Cells> rows;
  for (const auto& [gauge_name, bearing] : used)
    if (const auto found = bench.gauges.find(gauge_name); found != bench.gauges.end())
      rows.push_back(gauge_cells(found->second, unit, calibration_line(bench, readings, gauge_name)));
  if (rows.empty()) return {gauges_part({})};
  return {gauges_part(std::move(rows)), settings_part(settings_rows(bench, used, unit))};
}

}  // namespace tenth::paper
