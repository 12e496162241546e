#include "simulators/scenario.hpp"

#include <algorithm>
#include <array>

#include "simulators/fields.hpp"

namespace tenth::simulators {

namespace {

Display display(Fields& fields) {
  constexpr std::array kEnds = {"\r", "\n", "\r\n"};
  Display shown;
  const auto speaks = fields.required_text("speaks", "bcd13");
  if (!speaks.value.empty()) shown.speaks = static_cast<Speaks>(fields.choice("speaks", {"line", "bcd13", "bin24"}));
  shown.unit = static_cast<Unit>(fields.choice("unit", {"mm", "in"}));
  shown.decimals = fields.whole("decimals", shown.unit == Unit::mm ? 3 : 4, shown.speaks == Speaks::bcd13 ? 5 : 6);
  shown.end = kEnds.at(fields.choice("end", {"cr", "lf", "crlf"}));
  shown.plus = fields.choice("sign", {"minus", "always"}) == 1;
  shown.point = ".,"[fields.choice("point", {".", ","})];
  shown.names_unit = fields.flag("names_unit");
  return shown;
}

/// Every value of the list must fit the display, so that a long play does not break off halfway.
void read_values(Fields& fields, Gauge& gauge) {
  for (const auto& [text, where] : fields.texts("values")) {
    const auto value = parse_amount(text);
    if (!value) return fields.fail(where, value.error());
    const auto shown = frame(gauge.display, *value - gauge.zero.value_or(Amount{}) + gauge.offset, gauge.display.unit);
    if (!shown) return fields.fail(where, shown.error());
    gauge.values.push_back(*value);
  }
}

Result<Gauge> read_gauge(const std::string& file, const toml::table& table, const Scenario& scenario) {
  Fields fields(file, table);
  Gauge gauge;
  const auto name = fields.required_text("name", "bore-gauge");
  const auto path = fields.required_text("path", "ports/bore-gauge");
  gauge.name = name.value;
  gauge.path = path.value;
  gauge.display = display(fields);
  gauge.zero = fields.amount("zero");
  gauge.offset = fields.amount("offset").value_or(Amount{});
  read_values(fields, gauge);
  if (gauge.name.find_first_of(" \t") != std::string::npos) {
    fields.fail(name.where, "'" + gauge.name + "' holds a blank: name a gauge with one word");
  }
  for (const auto& other : scenario.gauges) {
    if (other.name == gauge.name) fields.fail(name.where, "'" + gauge.name + "' stands twice: name each gauge once");
    if (other.path == gauge.path) fields.fail(path.where, "'" + gauge.path + "' stands twice: each gauge has its path");
  }
  const auto finished = fields.finish();
  if (!finished) return tl::unexpected(finished.error());
  return gauge;
}

std::string names(const Scenario& scenario) {
  std::string text;
  for (const auto& gauge : scenario.gauges) text += (text.empty() ? "" : ", ") + gauge.name;
  return text;
}

void read_play(Fields& fields, Scenario& scenario) {
  for (const auto& [text, where] : fields.texts("play")) {
    const auto act = parse_act(text);
    if (!act) return fields.fail(where, act.error());
    const auto gauge = gauge_of(*act);
    if (!gauge.empty() && !find_gauge(scenario, gauge)) {
      return fields.fail(where, "no gauge '" + gauge + "': the gauges are " + names(scenario));
    }
    scenario.play.push_back(*act);
  }
}

Result<Scenario> read_scenario(const std::string& file, const toml::table& table) {
  Fields fields(file, table);
  Scenario scenario;
  scenario.title = fields.required_text("title", "Six bores").value;
  scenario.stay = fields.flag("stay");
  for (const auto* gauge_table : fields.tables("gauge")) {
    auto gauge = read_gauge(file, *gauge_table, scenario);
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

const Gauge* find_gauge(const Scenario& scenario, std::string_view name) {
  const auto found = std::ranges::find(scenario.gauges, name, &Gauge::name);
  return found == scenario.gauges.end() ? nullptr : &*found;
}

}  // namespace tenth::simulators
