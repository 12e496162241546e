#include <algorithm>
#include <set>

#include "schema/spec/parts.hpp"

namespace tenth::spec_file {

namespace {

Names numbered(int count) {
  Names names;
  for (int i = 1; i <= count; ++i) names.push_back(std::to_string(i));
  return names;
}

Names read_labels(Keys& keys, std::string_view key, std::string_view counted, std::optional<int> count) {
  if (!keys.has(key)) return numbered(count.value_or(0));
  const Names labels = keys.names(key);
  if (static_cast<int>(labels.size()) != count.value_or(0))
    keys.wrong(key,
               std::string(key) + " names " + std::to_string(labels.size()) + " of " +
                   std::to_string(count.value_or(0)) + " " + std::string(counted),
               "give each one label");
  return labels;
}

/// Takes one crankpin's rods out of those still `left`.
void read_pin(TomlText& text, const toml::node& node, Layout& layout, std::set<std::string>& left) {
  layout.pins.push_back(read_names(text, node, "[layout] pins"));
  const auto& pin = layout.pins.back();
  for (std::size_t i = 0; i < pin.size(); ++i) {
    if (left.erase(pin[i]) == 1) continue;
    const bool known = std::find(layout.labels.begin(), layout.labels.end(), pin[i]) != layout.labels.end();
    const auto& label = *node.as_array()->get(i);
    if (known)
      text.wrong(label, "[layout] pins: " + quoted(pin[i]) + " is on two crankpins", "name each cylinder once");
    else
      text.wrong(label, "[layout] pins: no cylinder has the label " + quoted(pin[i]), choices(pin[i], layout.labels));
  }
}

/// Every cylinder's rod runs on one crankpin.
void read_pins(Keys& keys, Layout& layout) {
  if (!keys.has("pins")) return;
  const auto* pins = keys.find("pins")->as_array();
  if (pins == nullptr) {
    keys.wrong("pins", "pins is no list", R"(write one list for each crankpin: [["1", "4"], ["2", "5"]])");
    return;
  }
  std::set<std::string> left(layout.labels.begin(), layout.labels.end());
  for (const auto& pin : *pins) read_pin(keys.text(), pin, layout, left);
  const auto crankpins = static_cast<std::size_t>(layout.crankpins.value_or(0));
  if (layout.pins.size() != crankpins)
    keys.wrong(
        "pins",
        "pins has " + std::to_string(layout.pins.size()) + " lists for " + std::to_string(crankpins) + " crankpins",
        "write one list for each crankpin");
  if (!left.empty())
    keys.wrong("pins", "pins: cylinder " + quoted(*left.begin()) + " is on no crankpin", "name each cylinder once");
}

}  // namespace

Layout read_layout(TomlText& text, const toml::table& table) {
  Keys keys(text, table, "[layout]",
            {"cylinders", "mains", "crankpins", "viewed_from", "labels", "main_labels", "pins"});
  Layout layout;
  layout.cylinders = keys.whole("cylinders", 1, kMostParts);
  layout.mains = keys.whole("mains", 1, kMostParts);
  layout.crankpins = keys.whole("crankpins", 1, kMostParts);
  layout.viewed_from = keys.words("viewed_from");
  layout.labels = read_labels(keys, "labels", "cylinders", layout.cylinders);
  layout.main_labels = read_labels(keys, "main_labels", "mains", layout.mains);
  read_pins(keys, layout);
  return layout;
}

}  // namespace tenth::spec_file
