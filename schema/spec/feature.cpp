#include <algorithm>
#include <array>
#include <set>

#include "rules/iso286.hpp"
#include "schema/spec/parts.hpp"

namespace tenth::spec_file {

namespace {

constexpr int kMostPresses = 100;

/// How many there are, and their labels: the layout's, or the feature's own.
void read_row(Keys& keys, const Layout& layout, Feature& feature) {
  std::optional<int> count = 1;
  if (keys.has("count") && keys.find("count")->is_string()) {
    feature.count_by =
        keys.choice("count", CountBy::number,
                    {{"cylinders", CountBy::cylinders}, {"mains", CountBy::mains}, {"crankpins", CountBy::crankpins}});
    if (feature.count_by == CountBy::cylinders) count = layout.cylinders;
    if (feature.count_by == CountBy::mains) count = layout.mains;
    if (feature.count_by == CountBy::crankpins) count = layout.crankpins;
    if (!count)
      keys.wrong("count", "is counted by " + keys.words("count") + ", and [layout] does not say how many",
                 "say it in [layout]");
  } else if (keys.has("count")) {
    count = keys.whole("count", 1, kMostParts);
  }
  feature.labels.clear();
  if (feature.count_by == CountBy::cylinders) feature.labels = layout.labels;
  if (feature.count_by == CountBy::mains) feature.labels = layout.main_labels;
  if (feature.labels.empty())
    for (int i = 1; i <= count.value_or(1); ++i) feature.labels.push_back(std::to_string(i));
  if (!keys.has("labels")) return;
  feature.labels = keys.names("labels");
  if (feature.count() != count)
    keys.wrong("labels", "labels names " + std::to_string(feature.count()) + " of " + std::to_string(count.value_or(1)),
               "give each one label");
}

Kind read_kind(Keys& keys) {
  if (!keys.has("kind"))
    keys.wrong("kind", "needs kind", "write kind = \"inside\", \"outside\", \"gap\", \"depth\" or \"check\"");
  return keys.choice("kind", Kind::inside,
                     {{"inside", Kind::inside},
                      {"outside", Kind::outside},
                      {"gap", Kind::gap},
                      {"depth", Kind::depth},
                      {"check", Kind::check}});
}

/// The words that find a place are told apart without their order.
void check_names_differ(Keys& keys, const Feature& feature) {
  std::set<std::string> seen(feature.labels.begin(), feature.labels.end());
  for (const auto& [key, names] : {std::pair("levels", &feature.levels), std::pair("axes", &feature.axes)})
    for (const auto& name : *names)
      if (!seen.insert(name).second)
        keys.wrong(key, std::string(key) + ": " + quoted(name) + " is also the name of another label or level",
                   "names within a feature must differ");
}

void read_class(Keys& keys, Feature& feature) {
  feature.size_text = keys.words("size");
  const auto limits = iso286_limits(feature.size_text);
  if (!limits) {
    keys.wrong("size", "size: " + limits.error().message, limits.error().remedy);
    return;
  }
  feature.limits = *limits;
  const bool hole =
      std::any_of(feature.size_text.begin(), feature.size_text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (feature.kind == (hole ? Kind::outside : Kind::inside))
    keys.wrong("size",
               "size: " + quoted(feature.size_text) + " is for " + (hole ? "holes" : "shafts") + ", and the kind is " +
                   std::string(name(feature.kind)),
               "capitals are for holes, small letters for shafts");
}

void read_size(Keys& keys, Feature& feature) {
  feature.limits = read_limits(keys);
  const bool diameter = feature.kind == Kind::inside || feature.kind == Kind::outside;
  if (diameter && feature.limits.any() && feature.limits.lower.value_or(*feature.limits.upper) < Length())
    keys.wrong(keys.limit_key("min"), "has a limit of size below zero", "write the size itself, not a deviation");
  if (!keys.has("size")) return;
  if (feature.limits.any()) keys.wrong("size", "has both size and limits", "keep one of them");
  read_class(keys, feature);
}

/// A limit of form, which takes at least two of `across`, or it would never be judged.
std::optional<Length> read_form(Keys& keys, std::string_view key, const Limits& limits, std::string_view across,
                                const Names& names) {
  if (keys.has(key) && names.size() < 2)
    keys.wrong(key, std::string(key) + " wants at least 2 " + std::string(across) + " to be measured",
               "name them, such as " + std::string(across) +
                   (across == "axes" ? R"( = ["thrust", "pin"])" : R"( = ["top", "bottom"])") + ", or leave " +
                   std::string(key) + " out");
  const auto form = keys.length_not_negative(key);
  if (form && limits.lower && limits.upper && *form > *limits.upper - *limits.lower)
    keys.wrong(key,
               std::string(key) + " " + keys.text().shown(*form) + " is wider than the limits of size (" +
                   keys.text().shown(*limits.upper - *limits.lower) + ")",
               "a form within the limits cannot be larger: write a smaller one");
  return form;
}

void read_forms(Keys& keys, Feature& feature) {
  feature.out_of_round = read_form(keys, "out_of_round", feature.limits, "axes", feature.axes);
  feature.taper = read_form(keys, "taper", feature.limits, "levels", feature.levels);
  feature.out_of_round_by =
      keys.choice("out_of_round_by", OutOfRoundBy::same_level,
                  {{"same_level", OutOfRoundBy::same_level}, {"across_levels", OutOfRoundBy::across_levels}});
  feature.taper_by = keys.choice("taper_by", TaperBy::along_axis,
                                 {{"along_axis", TaperBy::along_axis},
                                  {"ends", TaperBy::ends},
                                  {"pairs", TaperBy::pairs},
                                  {"level_means", TaperBy::level_means}});
}

void read_shape(Keys& keys, Feature& feature) {
  if (!keys.has("shape")) return;
  feature.shape = keys.choice("shape", Shape::straight,
                              {{"straight", Shape::straight},
                               {"first_wider", Shape::first_wider},
                               {"last_wider", Shape::last_wider},
                               {"barrel", Shape::barrel},
                               {"waist", Shape::waist}});
  const bool bellied = feature.shape == Shape::barrel || feature.shape == Shape::waist;
  const std::size_t least = bellied ? 3 : 2;
  if (feature.levels.size() < least)
    keys.wrong("shape", "shape wants at least " + std::to_string(least) + " levels",
               "name the levels, such as levels = [\"top\", \"middle\", \"bottom\"]");
}

void read_window(Keys& keys, Feature& feature) {
  if (!keys.has("window")) return;
  feature.window = keys.pair("window");
  const auto& [lower, upper] = feature.limits;
  if ((lower && feature.window->lower > lower) || (upper && feature.window->upper < upper))
    keys.wrong("window", "window does not hold the limits of size",
               "widen it: a reading outside the window is held as suspect");
}

void read_measured(Keys& keys, Feature& feature) {
  if (keys.has("before")) keys.wrong("before", "before is for checks only", "leave it out, or write kind = \"check\"");
  read_size(keys, feature);
  feature.levels = keys.names("levels");
  feature.axes = keys.names("axes");
  check_names_differ(keys, feature);
  read_forms(keys, feature);
  read_shape(keys, feature);
  read_window(keys, feature);
  feature.repeat = keys.length_not_negative("repeat");
  feature.fastest = keys.choice("fastest", Fastest::axis, {{"axis", Fastest::axis}, {"level", Fastest::level}});
  feature.presses = keys.whole("presses", 1, kMostPresses).value_or(1);
}

void read_check(Keys& keys, Feature& feature) {
  for (const char* key : {"size", "limits", "min", "max", "levels", "axes", "out_of_round", "taper", "out_of_round_by",
                          "taper_by", "shape", "window", "repeat", "fastest", "presses", "setup", "fitted_in"})
    if (keys.has(key))
      keys.wrong(key, "is a check and has no " + std::string(key), "leave it out: a check is answered yes or no");
  if (keys.has("before")) feature.before = keys.names("before");
}

}  // namespace

Feature read_feature(TomlText& text, const Layout& layout, const Group& group) {
  Keys keys(text, *group.table, group.title,
            {"count", "kind",         "size",     "limits",          "min",      "max",    "levels",
             "axes",  "out_of_round", "taper",    "out_of_round_by", "taper_by", "window", "repeat",
             "where", "fastest",      "presses",  "material",        "source",   "labels", "before",
             "shape", "setup",        "fitted_in"});
  Feature feature;
  feature.name = group.name;
  check_plain(text, group);
  feature.kind = read_kind(keys);
  read_row(keys, layout, feature);
  feature.where = keys.words("where");
  feature.material = keys.words("material");
  feature.source = keys.words("source");
  feature.setup = keys.words("setup");
  feature.fitted_in = keys.words("fitted_in");
  if (!feature.fitted_in.empty() && feature.kind != Kind::gap && feature.kind != Kind::check)
    keys.wrong("fitted_in", "fitted_in is for gaps only", "leave it out, or write kind = \"gap\"");
  if (feature.kind == Kind::check)
    read_check(keys, feature);
  else
    read_measured(keys, feature);
  return feature;
}

void check_named(TomlText& text, const Spec& spec, const Group& group, const Feature& feature) {
  for (std::size_t i = 0; i < feature.before.size(); ++i)
    measured_feature(text, spec, *group.table->get_as<toml::array>("before")->get(i), group.title + " before",
                     feature.before[i]);
  if (feature.fitted_in.empty()) return;
  const toml::node& where = *group.table->get("fitted_in");
  const Feature* const bore = measured_feature(text, spec, where, group.title + " fitted_in", feature.fitted_in);
  if (bore != nullptr && (bore->kind != Kind::inside || bore->count() != feature.count()))
    text.wrong(where,
               group.title + " fitted_in: there is not one " + quoted(bore->name) + " of kind inside for each gap",
               "name the bores that the rings run in");
}

}  // namespace tenth::spec_file
