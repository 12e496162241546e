#include <algorithm>

#include "schema/stock/parts.hpp"

namespace tenth::stock_file {

namespace {

void check_kind(Keys& keys, const Spec& spec, const std::string& name, Kind wanted, const char* work) {
  const Feature* feature = spec.find(name);
  if (feature != nullptr && feature->kind != wanted)
    keys.wrong("feature", "feature: " + quoted(name) + " is of kind " + std::string(tenth::name(feature->kind)),
               std::string("only ") + work + ": name one of kind " + std::string(tenth::name(wanted)));
}

void read_steps(Keys& keys, Grind& grind) {
  if (!keys.has("steps")) return;
  const auto* steps = keys.find("steps")->as_array();
  if (steps == nullptr) {
    keys.wrong("steps", "steps is no list of lengths", "write such as steps = [0.010, 0.020]");
    return;
  }
  for (const auto& element : *steps) {
    const auto step = keys.text().length(element, keys.title() + " steps");
    if (!step) return;
    if (*step <= Length() || (grind.standard.lower && *step >= *grind.standard.lower))
      keys.text().wrong(element, keys.title() + " steps: " + keys.text().shown(*step) + " is no undersize",
                        "write how far below standard, above zero");
    grind.steps.push_back(*step);
  }
  std::ranges::sort(grind.steps);
}

void check_smallest(Keys& keys, const Grind& grind) {
  if (grind.smallest && grind.standard.upper && *grind.smallest > *grind.standard.upper)
    keys.wrong("smallest", "smallest " + keys.text().shown(*grind.smallest) + " is above the standard size",
               "write the last size that may be ground");
}

Length required_length(Keys& keys, std::string_view key, const char* remedy) {
  if (!keys.has(key)) keys.wrong(key, "needs " + std::string(key), remedy);
  return keys.length_not_negative(key).value_or(Length());
}

}  // namespace

SparePart read_part(TomlText& text, const Spec& spec, const Item& item) {
  Keys keys(text, *item.table, item.title, {"id", "feature", "size", "count"});
  SparePart part;
  part.id = keys.required("id", "give it the shop's own name");
  part.feature = read_feature_name(keys, spec);
  if (!keys.has("size")) keys.wrong("size", "needs size", "write its measured size");
  part.size = length_above_zero(keys, "size").value_or(Length());
  part.count = read_count(keys);
  return part;
}

Grind read_grind(TomlText& text, const Spec& spec, const Item& item) {
  Keys keys(text, *item.table, item.title,
            {"feature", "standard", "steps", "any_size", "tolerance", "cleanup", "smallest", "all_alike", "hardening"});
  Grind grind;
  grind.feature = read_feature_name(keys, spec);
  check_kind(keys, spec, grind.feature, Kind::outside, "journals are ground");
  if (!keys.has("standard")) keys.wrong("standard", "needs standard", "write the new limits at undersize 0");
  grind.standard = keys.pair("standard");
  if (grind.standard.lower && *grind.standard.lower <= Length())
    keys.wrong("standard", "standard is not above zero", "write the sizes themselves");
  read_steps(keys, grind);
  grind.any_size = keys.yes("any_size", false);
  grind.tolerance = required_length(keys, "tolerance", "write what the grinder keeps, plus or minus");
  grind.cleanup = keys.length_not_negative("cleanup").value_or(Length());
  grind.smallest = length_above_zero(keys, "smallest");
  check_smallest(keys, grind);
  grind.all_alike = keys.yes("all_alike", true);
  grind.hardening = keys.words("hardening");
  return grind;
}

Hone read_hone(TomlText& text, const Spec& spec, const Item& item) {
  Keys keys(text, *item.table, item.title, {"feature", "most"});
  Hone hone;
  hone.feature = read_feature_name(keys, spec);
  check_kind(keys, spec, hone.feature, Kind::inside, "bores are honed");
  hone.most = required_length(keys, "most", "write the largest enlargement allowed");
  return hone;
}

}  // namespace tenth::stock_file
