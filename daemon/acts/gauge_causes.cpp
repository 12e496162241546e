#include "daemon/acts/gauge_causes.hpp"

#include <algorithm>
#include <map>

namespace tenth {
namespace {

using ByGauge = std::map<std::string, std::vector<std::int64_t>>;

/// The calibration that was past its due day is still the gauge's last.
bool still_overdue(const Bench& bench, const Reading& reading) {
  const auto gauge = bench.gauges.find(*reading.gauge);
  return reading.overdue && gauge != bench.gauges.end() && gauge->second.calibration &&
         gauge->second.calibration->entry == reading.calibration;
}

bool in_doubt(const Reading& reading) {
  return reading.state == State::suspect && std::ranges::find(reading.doubts, Doubt::gauge) != reading.doubts.end();
}

Cause cause_for(const Engine& engine, AlertWhat what, Severity severity, const std::string& gauge,
                const std::vector<std::int64_t>& seqs) {
  return {engine.name, what, severity, gauge, "", std::nullopt, std::nullopt, seqs};
}

}  // namespace

std::vector<Cause> gauge_causes(const Bench& bench, const Engine& engine) {
  ByGauge overdue, doubted;
  for (const Reading& reading : engine.readings) {
    if (!reading.gauge || reading.state == State::voided) continue;
    if (still_overdue(bench, reading)) overdue[*reading.gauge].push_back(reading.seq);
    if (in_doubt(reading)) doubted[*reading.gauge].push_back(reading.seq);
  }
  std::vector<Cause> causes;
  for (const auto& [gauge, seqs] : overdue) {
    causes.push_back(cause_for(engine, AlertWhat::overdue, Severity::look, gauge, seqs));
    causes.back().text = "gauge " + gauge + " was due for calibration on " + bench.gauges.at(gauge).calibration->due +
                         "; its readings from then on are marked overdue: calibrate it, then `tenth gauge calibrate`";
  }
  for (const auto& [gauge, seqs] : doubted) {
    causes.push_back(cause_for(engine, AlertWhat::gauge, Severity::stop, gauge, seqs));
    causes.back().text = "gauge " + gauge + " was put in doubt; " + std::to_string(seqs.size()) +
                         (seqs.size() == 1 ? " reading is" : " readings are") +
                         " suspect: measure anew, or keep or void them";
  }
  return causes;
}

}  // namespace tenth
