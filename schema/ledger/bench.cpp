#include "schema/ledger/bench.hpp"

#include <algorithm>

namespace tenth {

std::string_view name(Capture capture) {
  switch (capture) {
    case Capture::asked:
      return "asked";
    case Capture::turning:
      return "turning";
    case Capture::settled:
      return "settled";
  }
  return "";
}

std::optional<Capture> capture_named(std::string_view word) {
  for (const Capture capture : {Capture::asked, Capture::turning, Capture::settled})
    if (word == name(capture)) return capture;
  return std::nullopt;
}

const Reading* find_reading(const Bench& bench, std::int64_t seq) {
  const auto found = bench.reading_index.find(seq);
  if (found == bench.reading_index.end()) return nullptr;
  const auto& [engine, position] = found->second;
  return engine.empty() ? &bench.placeless[position] : &bench.engines.at(engine).readings[position];
}

Reading* find_reading(Bench& bench, std::int64_t seq) {
  return const_cast<Reading*>(find_reading(std::as_const(bench), seq));
}

const Setting* find_setting(const Bench& bench, std::int64_t seq) {
  const auto found = std::lower_bound(bench.settings.begin(), bench.settings.end(), seq,
                                      [](const Setting& setting, std::int64_t wanted) { return setting.seq < wanted; });
  return found == bench.settings.end() || found->seq != seq ? nullptr : &*found;
}

bool is_overdue(const Gauge& gauge, const std::string& day) {
  return gauge.calibration && day > gauge.calibration->due;
}

const Standing& standing_of(const Bench& bench, const std::optional<std::string>& gauge) {
  if (gauge)
    if (const auto own = bench.own.find(*gauge); own != bench.own.end()) return own->second;
  return bench.common;
}

std::optional<std::string> operator_of(const Bench& bench, const std::optional<std::string>& gauge) {
  if (gauge)
    if (const auto own = bench.gauge_operators.find(*gauge); own != bench.gauge_operators.end()) return own->second;
  return bench.operator_name;
}

const Told* temperature_of(const Bench& bench, const std::string& engine, const std::string& feature) {
  if (bench.warmths.engine != engine) return nullptr;
  auto found = bench.warmths.by_feature.find(feature);
  if (found == bench.warmths.by_feature.end()) found = bench.warmths.by_feature.find("");
  return found == bench.warmths.by_feature.end() ? nullptr : &bench.temperatures.at(found->second);
}

}  // namespace tenth
