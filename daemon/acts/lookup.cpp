#include "daemon/acts/lookup.hpp"

#include <vector>

#include "rules/nearest.hpp"

namespace tenth {
namespace {

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known, const std::string& otherwise) {
  const std::string near = nearest(word, known);
  return near.empty() ? otherwise : "did you mean `" + near + "`?";
}

}  // namespace

Result<const Engine*> engine_named(const Bench& bench, const std::string& name) {
  if (const auto found = bench.engines.find(name); found != bench.engines.end()) return &found->second;
  std::vector<std::string> known;
  for (const auto& [other, engine] : bench.engines) known.push_back(other);
  return refuse("unknown_engine", "there is no engine `" + name + "`",
                did_you_mean(name, known, "`tenth engine list` shows them, `tenth engine add` makes one"));
}

Result<const Engine*> engine_or_used(const Bench& bench, const std::optional<std::string>& name) {
  if (name) return engine_named(bench, *name);
  if (bench.engine) return engine_named(bench, *bench.engine);
  return refuse("no_engine", "no engine is in use", "choose one: `tenth engine use NAME`");
}

Result<const Gauge*> gauge_named(const Bench& bench, const std::string& name) {
  const auto found = bench.gauges.find(name);
  if (found != bench.gauges.end() && !found->second.dropped) return &found->second;
  std::vector<std::string> known;
  for (const auto& [other, gauge] : bench.gauges)
    if (!gauge.dropped) known.push_back(other);
  return refuse("unknown_gauge", "there is no gauge `" + name + "`",
                did_you_mean(name, known, "`tenth gauge list` shows them, `tenth gauge add` makes one"));
}

Result<std::optional<std::string>> maybe_gauge(const Bench& bench, const std::optional<std::string>& name) {
  if (!name) return std::nullopt;
  TENTH_TRY(const Gauge* const gauge, gauge_named(bench, *name));
  return gauge->name;
}

Result<const Master*> master_named(const Bench& bench, const std::string& name) {
  const auto found = bench.masters.find(name);
  if (found != bench.masters.end() && !found->second.dropped) return &found->second;
  std::vector<std::string> known;
  for (const auto& [other, master] : bench.masters)
    if (!master.dropped) known.push_back(other);
  return refuse(
      "unknown_master", "there is no master `" + name + "`",
      did_you_mean(name, known, "`tenth masters list` shows them, `tenth masters add` makes one; or give a size"));
}

std::optional<Unit> spec_unit(const Bench& bench) {
  if (!bench.engine) return std::nullopt;
  return bench.engines.at(*bench.engine).spec->unit;
}

}  // namespace tenth
