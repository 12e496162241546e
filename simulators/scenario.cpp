#include "simulators/scenario.hpp"

#include <algorithm>

#include "simulators/read_gauge.hpp"

namespace tenth::simulators {

namespace {

std::string names(const Scenario& scenario) {
  std::string text;
  for (const auto& gauge : scenario.gauges) text += (text.empty() ? "" : ", ") + gauge.name;
  return text;
}

void read_play(Fields& fields, Scenario& scenario) {
  for (const auto& [text, where] : fields.texts("play")) {
    const auto act = parse_act(text);
    if (!act) return fields.fail(where, act.error());
    const auto name = gauge_of(*act);
    const auto* gauge = find_gauge(scenario.gauges, name);
    if (!name.empty() && !gauge) {
      return fields.fail(where, "no gauge '" + name + "': the gauges are " + names(scenario));
    }
    const auto able = gauge ? can_do(*gauge, *act) : Result<void>{};
    if (!able) return fields.fail(where, able.error());
    scenario.play.push_back(*act);
  }
}

Result<Scenario> read_scenario(const std::string& file, const toml::table& table) {
  Fields fields(file, table);
  Scenario scenario;
  scenario.title = fields.required_text("title", "Six bores").value;
  scenario.stay = fields.flag("stay");
  scenario.seed = fields.whole("seed", 1, 0, 1'000'000'000);
  for (const auto* gauge_table : fields.tables("gauge")) {
    auto gauge = read_gauge(file, *gauge_table, scenario.gauges);
    if (!gauge) return tl::unexpected(gauge.error());
    scenario.gauges.push_back(std::move(*gauge));
  }
  read_play(fields, scenario);
  const auto finished = fields.finish();
  if (!finished) return tl::unexpected(finished.error());
  return scenario;
}

}  // namespace

Result<Scenario> parse_scenario(std::string_view text, const std::string& file) {
  try {
    return read_scenario(file, toml::parse(text));
  } catch (const toml::parse_error& error) {
    return tl::unexpected(place(file, error.source()) + "this is no TOML: " + std::string(error.description()));
  }
}

const Gauge* find_gauge(const std::vector<Gauge>& gauges, std::string_view name) {
  const auto found = std::ranges::find(gauges, name, &Gauge::name);
  return found == gauges.end() ? nullptr : &*found;
}

}  // namespace tenth::simulators
