#include <algorithm>

#include "schema/stock/parts.hpp"

namespace tenth::stock_file {

namespace {

constexpr Length kThickest = Length::from_mm(50);  // a thicker wall is a slip of the decimal point or the unit

void read_places(Keys& keys, const Feature* feature, Shell& shell) {
  shell.places = keys.names("places");
  if (feature == nullptr) return;
  for (std::size_t i = 0; i < shell.places.size(); ++i)
    if (std::ranges::find(feature->labels, shell.places[i]) == feature->labels.end())
      keys.text().wrong(*keys.find("places")->as_array()->get(i),
                        keys.title() + " places: " + feature->name + " has no " + quoted(shell.places[i]),
                        choices(shell.places[i], feature->labels));
}

/// One number, or [min, max] from a maker.
void read_wall(Keys& keys, Shell& shell) {
  shell.wall_by = keys.choice("wall_by", WallBy::measured, {{"measured", WallBy::measured}, {"maker", WallBy::maker}});
  if (!keys.has("wall")) return;
  if (keys.find("wall")->is_array()) {
    const Limits range = keys.pair("wall");
    if (range.lower && range.upper) shell.wall = Wall{*range.lower, *range.upper};
  } else if (const auto wall = keys.length("wall")) {
    shell.wall = Wall{*wall, *wall};
  }
  if (!shell.wall) return;
  if (shell.wall->least <= Length()) keys.wrong("wall", "wall is not above zero", "write the wall itself");
  if (shell.wall->most > kThickest)
    keys.wrong("wall", "wall " + keys.text().shown(shell.wall->most) + " is thicker than any bearing half",
               "look at the decimal point and the unit");
}

/// The larger a journal's undersize, the less of it is left: no shell is meant for one that is gone.
void check_undersize(Keys& keys, const Feature* feature, const Shell& shell) {
  if (!shell.undersize) return;
  if (shell.series.empty())
    keys.wrong("undersize", "has undersize without series", "name the series that its undersizes count in");
  const Length largest = feature != nullptr && feature->limits.lower ? *feature->limits.lower : kLongest;
  if (shell.undersize->magnitude() >= largest)
    keys.wrong("undersize", "undersize " + keys.text().shown(*shell.undersize) + " is as large as the bearing",
               "write how far below standard the journal is");
}

}  // namespace

Shell read_shell(TomlText& text, const Spec& spec, const Item& item) {
  Keys keys(text, *item.table, item.title,
            {"id", "feature", "half", "places", "series", "undersize", "wall", "wall_by", "coated", "count"});
  Shell shell;
  shell.id = keys.required("id", "give it the shop's own name");
  shell.feature = read_feature_name(keys, spec);
  const Feature* feature = spec.find(shell.feature);
  if (feature != nullptr && feature->kind == Kind::outside)
    keys.wrong("feature", "feature: " + quoted(shell.feature) + " is of kind outside", "name the bearing it sits in");
  keys.required("half", "write upper, lower or either");
  shell.half =
      keys.choice("half", Half::either, {{"upper", Half::upper}, {"lower", Half::lower}, {"either", Half::either}});
  read_places(keys, feature, shell);
  shell.series = keys.words("series");
  shell.undersize = keys.length("undersize");
  check_undersize(keys, feature, shell);
  read_wall(keys, shell);
  shell.coated = keys.yes("coated", false);
  shell.count = read_count(keys);
  return shell;
}

}  // namespace tenth::stock_file
