#include <re2/re2.h>

#include <numeric>
#include <set>

#include "rules/decimal.hpp"
#include "schema/profile/parts.hpp"

namespace tenth::profile_file {

namespace {

constexpr int kMostPlaces = 9;

std::optional<std::int64_t> whole(std::string_view text) {
  const auto number = parse_decimal(text);
  return number ? scaled(*number, 0) : std::nullopt;
}

/// "0.001" or "1/2000", reduced. Empty where it is neither, or not above zero.
std::optional<Factor> parse_factor(std::string_view text) {
  std::optional<std::int64_t> above, below = 1'000'000'000;
  if (const auto slash = text.find('/'); slash != std::string_view::npos) {
    above = whole(text.substr(0, slash));
    below = whole(text.substr(slash + 1));
  } else if (const auto number = parse_decimal(text)) {
    above = scaled(*number, kMostPlaces);
  }
  if (!above || !below || *above <= 0 || *below <= 0) return std::nullopt;
  const std::int64_t common = std::gcd(*above, *below);
  return Factor{*above / common, *below / common};
}

void check_pattern(Keys& keys, const std::string& pattern) {
  RE2::Options options(RE2::Latin1);
  options.set_log_errors(false);
  const RE2 compiled(pattern, options);
  if (!compiled.ok())
    return keys.wrong("pattern", "pattern: " + compiled.error(), "write a regular expression as RE2 has them");
  const std::set<std::string> known{"channel", "number", "unit", "status"};
  for (const auto& [name, at] : compiled.NamedCapturingGroups())
    if (!known.contains(name))
      keys.wrong("pattern", "pattern: nothing is known of a group " + quoted(name),
                 "the groups are number, channel, unit and status");
  if (!compiled.NamedCapturingGroups().contains("number"))
    keys.wrong("pattern", "pattern: the group `number` is missing", "write (?P<number>…) around the digits");
}

std::map<std::string, Unit> read_units(Keys& keys) {
  std::map<std::string, Unit> units;
  const toml::table* const table = keys.table("units");
  if (table == nullptr) return units;
  for (const toml::key* key : in_order(*table)) {
    const auto unit = parse_unit(table->get(key->str())->value_or(std::string()));
    if (unit)
      units.emplace(key->str(), *unit);
    else
      keys.text().wrong(key->source().begin, "[value] units: " + quoted(key->str()) + " is neither mm nor in",
                        "write { " + std::string(key->str()) + " = \"mm\" } or \"in\"");
  }
  return units;
}

}  // namespace

ValueForm read_value(Keys& file, Speaks speaks) {
  ValueForm value;
  const std::string remedy = "write the group [value] with pattern = '…' and a group (?P<number>…) in it";
  const toml::table* const table = group(file, "value", speaks != Speaks::pedal, "gauges");
  if (table == nullptr) {
    if (has_pattern(speaks)) file.wrong("value", "has no pattern", remedy);
    return value;
  }
  Keys keys(file.text(), *table, "[value]", {"pattern", "unit", "units", "scale", "negate"});
  if (has_pattern(speaks)) {
    value.pattern = keys.required("pattern", remedy);
    if (keys.has("pattern")) check_pattern(keys, value.pattern);
  } else if (keys.has("pattern")) {
    keys.wrong("pattern", "a pattern is only for line, query and keys", "leave it out");
  }
  if (keys.has("unit")) value.unit = keys.choice("unit", Unit::mm, {{"mm", Unit::mm}, {"in", Unit::in}});
  if (keys.has("units")) value.units = read_units(keys);
  if (keys.has("scale")) {
    const auto factor = parse_factor(keys.words("scale"));
    if (!factor)
      keys.wrong("scale", "scale is no number or fraction above zero",
                 "write it in quotes, such as \"0.001\" or \"1/2000\"");
    value.scale = factor.value_or(Factor{});
  }
  value.negate = keys.yes("negate", false);
  return value;
}

}  // namespace tenth::profile_file
