#include <algorithm>
#include <stdexcept>

#include "schema/ledger/fold_parts.hpp"

namespace tenth {
namespace {

/// Says anew what the master of a setting was. A person who said so knows neither a name nor a reading that gave the
/// size; one that only follows the correction of another setting goes on resting on its reading.
void correct(Setting& setting, Length master, bool follows) {
  setting.master = master;
  setting.corrected = true;
  if (follows) return;
  setting.used.entry.reset();
  setting.used.reading.reset();
  setting.used.name.clear();
}

}  // namespace

void apply_master(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Master master;
  master.entry = entry.seq;
  master.name = body.at("name").get<std::string>();
  master.size = length_at(body, "size_pm").value();
  master.unit = parse_unit(body.at("unit").get<std::string>()).value();
  master.certificate = text_at(body, "certificate").value_or("");
  master.due = text_at(body, "due").value_or("");
  master.uncertainty = length_at(body, "uncertainty_pm");
  bench.masters[master.name] = std::move(master);
}

void apply_master_drop(Bench& bench, const Entry& entry) {
  bench.masters.at(entry.body.at("name").get<std::string>()).dropped = true;
}

void apply_calibration(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Gauge& gauge = bench.gauges.at(body.at("gauge").get<std::string>());
  Calibration calibration;
  calibration.entry = entry.seq;
  calibration.on = body.at("on").get<std::string>();
  calibration.due = body.at("due").get<std::string>();
  calibration.certificate = body.at("certificate").get<std::string>();
  calibration.lab = text_at(body, "lab").value_or("");
  calibration.uncertainty = length_at(body, "uncertainty_pm");
  if (calibration.uncertainty)
    gauge.uncertainty = calibration.uncertainty;
  else if (gauge.calibration)
    calibration.uncertainty = gauge.calibration->uncertainty;
  bench.calibrations[entry.seq] = calibration;
  gauge.calibration = std::move(calibration);
}

MasterUsed master_used(const Json& body) {
  return {seq_at(body, "master_entry"), text_at(body, "master").value_or(""), text_at(body, "in").value_or(""),
          seq_at(body, "master_reading"), length_at(body, "master_uncertainty_pm")};
}

/// The setting and the checks that were made of it.
void apply_setting_correct(Bench& bench, const Entry& entry) {
  const auto seq = entry.body.at("setting").get<std::int64_t>();
  const Length master = length_at(entry.body, "master_pm").value();
  const bool follows = seq_at(entry.body, "follows").has_value();
  for (Setting& setting : bench.settings)
    if (setting.seq == seq || (!setting.sets_zero && setting.previous == seq)) correct(setting, master, follows);
  for (auto& [name, gauge] : bench.gauges)
    if (gauge.setting && gauge.setting->seq == seq) correct(*gauge.setting, master, follows);
}

/// The sizes of readings follow their setting's master; what was read stays.
void apply_resized(Bench& bench, const Entry& entry) {
  const Setting* const setting = find_setting(bench, entry.body.at("setting").get<std::int64_t>());
  if (setting == nullptr) throw std::runtime_error("an entry about a setting that is not there");
  const Json& seqs = entry.body.at("seqs");
  for (const Json& seq : seqs) {
    Reading* const reading = find_reading(bench, seq.get<std::int64_t>());
    if (reading == nullptr) throw std::runtime_error("an entry about a reading that is not there");
    reading->size = setting->master + (reading->value - setting->shown);
    correct_to_20c(bench, *reading);
  }
  if (text_at(entry.body, "engine"))
    note_choice(bench, entry,
                "the master of setting " + std::to_string(setting->seq) + " corrected, which " +
                    std::to_string(seqs.size()) + (seqs.size() == 1 ? " reading follows" : " readings follow"));
}

}  // namespace tenth
