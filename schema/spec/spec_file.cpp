#include "schema/spec/spec_file.hpp"

#include <algorithm>

#include "schema/spec/parts.hpp"

namespace tenth {

namespace spec_file {

namespace {

/// More than any engine has; it bounds what a round walks.
constexpr std::size_t kMostPlaces = 100'000;

/// Free text for the record, in the order of the file.
void read_facts(TomlText& text, const toml::table* table, Spec& spec) {
  if (table == nullptr) return;
  for (const toml::key* key : in_order(*table)) {
    const auto& value = *table->get(key->str());
    if (const auto* fact = value.as_string())
      spec.facts.emplace_back(key->str(), fact->get());
    else
      text.wrong(value, "[facts] " + quoted(key->str()) + " is text", "put it in quotes");
  }
}

/// Thermal expansion in 1e-6/K.
void read_material(TomlText& text, const Group& group, Spec& spec) {
  Keys keys(text, *group.table, group.title, {"expansion"});
  const auto* written = keys.find("expansion");
  const auto expansion = parse_expansion(written != nullptr && written->is_number() ? text.literal(*written) : "");
  if (!expansion)
    return keys.wrong("expansion", "needs expansion, a number in 1e-6/K from 0 to 1000",
                      "write such as expansion = 11.4");
  spec.materials[group.name] = *expansion;
}

void read_features(TomlText& text, const toml::table* table, Spec& spec) {
  const auto groups = read_groups(text, table, "feature");
  std::size_t places = 0;
  for (const auto& group : groups) {
    const Feature& feature = spec.features.emplace_back(read_feature(text, spec.layout, group));
    places += feature.labels.size() * std::max<std::size_t>(feature.levels.size(), 1) *
              std::max<std::size_t>(feature.axes.size(), 1);
    if (places > kMostPlaces) {
      text.wrong(*group.table, group.title + " makes more than " + std::to_string(kMostPlaces) + " places",
                 "ask for fewer levels and axes");
      return;
    }
  }
  for (std::size_t i = 0; i < groups.size(); ++i) check_named(text, spec, groups[i], spec.features[i]);
}

Spec read_spec(TomlText& text, const toml::table& root) {
  Keys keys(text, root, "the spec", {"title", "unit", "layout", "facts", "feature", "fit", "spread", "material"});
  Spec spec;
  spec.title = keys.words("title");
  if (keys.has("unit")) text.unit = keys.choice("unit", Unit::mm, {{"mm", Unit::mm}, {"in", Unit::in}});
  spec.unit = text.unit.value_or(Unit::mm);
  if (const auto* layout = keys.table("layout")) spec.layout = read_layout(text, *layout);
  read_facts(text, keys.table("facts"), spec);
  for (const auto& group : read_groups(text, keys.table("material"), "material")) read_material(text, group, spec);
  read_features(text, keys.table("feature"), spec);
  if (spec.features.empty()) keys.wrong("feature", "needs a feature", "write [feature.NAME] and what it is below");
  for (const auto& group : read_groups(text, keys.table("fit"), "fit"))
    spec.fits.push_back(read_fit(text, spec, group));
  for (const auto& group : read_groups(text, keys.table("spread"), "spread"))
    spec.spreads.push_back(read_spread(text, spec, group));
  return spec;
}

}  // namespace

}  // namespace spec_file

Result<Spec> parse_spec(std::string_view text, const std::string& file) {
  return toml_file::read_toml(text, file, "spec", spec_file::read_spec);
}

}  // namespace tenth
