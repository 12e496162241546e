#include <algorithm>

#include "schema/spec/parts.hpp"

namespace tenth::spec_file {

namespace {

/// Names of a fit that must be among the `known` levels or axes of one of its parts.
Names read_known(Keys& keys, std::string_view key, const Names& known, const std::string& of) {
  Names names = keys.names(key);
  for (std::size_t i = 0; i < names.size(); ++i)
    if (std::find(known.begin(), known.end(), names[i]) == known.end())
      keys.text().wrong(*keys.find(key)->as_array()->get(i),
                        keys.title() + " " + std::string(key) + ": " + of + " has no " + quoted(names[i]),
                        choices(names[i], known));
  return names;
}

const Feature* read_part(Keys& keys, std::string_view key, const Spec& spec) {
  const std::string name = keys.required(key, "name the feature that is " + std::string(key));
  return keys.has(key)
             ? measured_feature(keys.text(), spec, *keys.find(key), keys.title() + " " + std::string(key), name)
             : nullptr;
}

void check_parts(Keys& keys, const Feature& inside, const Feature& outside) {
  if (&inside == &outside) keys.wrong("outside", "fits " + quoted(inside.name) + " to itself", "name its mate");
  if (inside.kind == Kind::outside)
    keys.wrong("inside", "inside: " + quoted(inside.name) + " is of kind outside", "name the part that surrounds");
  if (outside.kind == Kind::inside)
    keys.wrong("outside", "outside: " + quoted(outside.name) + " is of kind inside",
               "name the part that is surrounded");
}

void read_target(Keys& keys, Fit& fit) {
  fit.target = keys.length("target");
  if (!fit.target) return;
  if ((fit.limits.lower && fit.target < fit.limits.lower) || (fit.limits.upper && fit.target > fit.limits.upper))
    keys.wrong("target", "target " + keys.text().shown(*fit.target) + " is outside the limits of the fit",
               "write a target within them");
}

/// Some parts within their limits must give a fit within its own.
void check_reach(Keys& keys, const Fit& fit, const Limits& inside, const Limits& outside) {
  const auto& text = keys.text();
  const std::string never =
      "can never be reached: within their limits " + fit.inside + " and " + fit.outside + " give ";
  if (fit.limits.upper && inside.lower && outside.upper && *inside.lower - *outside.upper > *fit.limits.upper)
    keys.wrong(keys.limit_key("max"), never + text.shown(*inside.lower - *outside.upper) + " or more",
               "look at the limits of all three");
  if (fit.limits.lower && inside.upper && outside.lower && *inside.upper - *outside.lower < *fit.limits.lower)
    keys.wrong(keys.limit_key("min"), never + text.shown(*inside.upper - *outside.lower) + " or less",
               "look at the limits of all three");
}

void check_seats(Keys& keys, const Layout& layout, const Fit& fit, bool shared) {
  if (!keys.has("seats")) return;
  std::size_t rods = 0;
  for (const auto& pin : layout.pins) rods = std::max(rods, pin.size());
  if (!shared)
    keys.wrong("seats", "seats are for rods that share crankpins",
               "leave seats out, or say in [layout] which rods share: pins = […]");
  else if (fit.seats.size() != rods)
    keys.wrong(
        "seats",
        "seats names " + std::to_string(fit.seats.size()) + " seats for " + std::to_string(rods) + " rods on a pin",
        "name one level for each rod of a pin");
  if (keys.has("outside_levels"))
    keys.wrong("outside_levels", "has both seats and outside_levels", "keep one: seats choose the level of each rod");
}

void read_couples(Keys& keys, const Layout& layout, const Feature& inside, const Feature& outside, Fit& fit) {
  const bool shared = share_pins(layout, inside, outside);
  check_seats(keys, layout, fit, shared);
  if (!shared && inside.count() != outside.count())
    keys.wrong("inside",
               "cannot couple " + std::to_string(inside.count()) + " " + inside.name + " with " +
                   std::to_string(outside.count()) + " " + outside.name,
               "give both the same count; rods by cylinder that share crankpins need pins in [layout]");
  if (!keys.text().first_wrong()) fit.couples = coupled(layout, inside, outside, fit.seats);
}

/// What remedies keep to: bearing halves, and parts matched to others.
void read_choice(Keys& keys, const Feature& inside, Fit& fit) {
  fit.coated =
      keys.choice("coated", Coated::may, {{"must", Coated::must}, {"may", Coated::may}, {"never", Coated::never}});
  fit.mix_halves = keys.yes("mix_halves", true);
  fit.wall_difference = keys.length_not_negative("wall_difference");
  if (keys.has("thicker"))
    fit.thicker = keys.choice("thicker", Half::upper, {{"upper", Half::upper}, {"lower", Half::lower}});
  fit.swap = keys.yes("swap", true);
  fit.match = keys.yes("match", false);
  for (const std::string_view key : {"coated", "mix_halves", "wall_difference", "thicker", "swap"})
    if (keys.has(key) && inside.kind != Kind::inside)
      keys.wrong(key,
                 std::string(key) + " is for bearing halves, and " + inside.name + " is of kind " +
                     std::string(name(inside.kind)),
                 "leave it out");
}

}  // namespace

const Feature* measured_feature(TomlText& text, const Spec& spec, const toml::node& where, const std::string& title,
                                const std::string& name) {
  const Feature* feature = spec.find(name);
  if (feature != nullptr && feature->kind != Kind::check) return feature;
  Names names;
  for (const auto& known : spec.features)
    if (known.kind != Kind::check) names.push_back(known.name);
  text.wrong(
      where,
      title + (feature == nullptr ? ": there is no feature " : ": there is no size at the check ") + quoted(name),
      choices(name, names));
  return nullptr;
}

Fit read_fit(TomlText& text, const Spec& spec, const Group& group) {
  Keys keys(
      text, *group.table, group.title,
      {"inside", "outside", "limits", "min", "max", "target", "judge", "inside_levels", "outside_levels", "inside_axes",
       "outside_axes", "seats", "coated", "mix_halves", "wall_difference", "thicker", "swap", "match"});
  Fit fit;
  fit.name = group.name;
  check_plain(text, group);
  const Feature* inside = read_part(keys, "inside", spec);
  const Feature* outside = read_part(keys, "outside", spec);
  if (inside == nullptr || outside == nullptr) return fit;
  fit.inside = inside->name;
  fit.outside = outside->name;
  check_parts(keys, *inside, *outside);
  fit.limits = read_limits(keys);
  read_target(keys, fit);
  check_reach(keys, fit, inside->limits, outside->limits);
  fit.judge = keys.choice("judge", JudgeBy::extremes, {{"extremes", JudgeBy::extremes}, {"mean", JudgeBy::mean}});
  fit.inside_levels = read_known(keys, "inside_levels", inside->levels, inside->name);
  fit.outside_levels = read_known(keys, "outside_levels", outside->levels, outside->name);
  fit.inside_axes = read_known(keys, "inside_axes", inside->axes, inside->name);
  fit.outside_axes = read_known(keys, "outside_axes", outside->axes, outside->name);
  fit.seats = read_known(keys, "seats", outside->levels, outside->name);
  read_couples(keys, spec.layout, *inside, *outside, fit);
  read_choice(keys, *inside, fit);
  return fit;
}

Spread read_spread(TomlText& text, const Spec& spec, const Group& group) {
  Keys keys(text, *group.table, group.title, {"limit", "by"});
  measured_feature(text, spec, *group.table, group.title, group.name);
  if (!keys.has("limit"))
    keys.wrong("limit", "needs limit", "write how far the largest and the smallest may lie apart");
  Spread spread;
  spread.feature = group.name;
  spread.limit = keys.length_not_negative("limit").value_or(Length());
  spread.by = keys.choice("by", SpreadBy::means, {{"means", SpreadBy::means}, {"readings", SpreadBy::readings}});
  return spread;
}

}  // namespace tenth::spec_file
