#include "rules/respec.hpp"

#include <algorithm>
#include <set>

#include "rules/joined.hpp"
#include "rules/names.hpp"

namespace tenth {
namespace {

constexpr Names<CountBy, 4> kCounts{{"", "cylinders", "mains", "crankpins"}};
constexpr Names<Fastest, 2> kFastest{{"axis", "level"}};
constexpr Names<JudgeBy, 2> kJudges{{"extremes", "mean"}};
constexpr Names<SpreadBy, 2> kSpreads{{"means", "readings"}};
constexpr Names<Coated, 3> kCoated{{"may", "must", "never"}};

using Words = std::vector<std::string>;
using Said = std::optional<std::string>;

/// A part of a spec as key and value, in words that are equal only where what they say is equal. The first line tells
/// what it is at all.
struct Part {
  std::string of, name;
  std::vector<std::pair<std::string, std::string>> lines = {};

  void add(const std::string& key, const Said& value) {
    if (value && !value->empty()) lines.emplace_back(key, *value);
  }
  Said at(const std::string& key) const {
    const auto found = std::ranges::find(lines, key, [](const auto& line) { return line.first; });
    return found == lines.end() ? std::nullopt : Said(found->second);
  }
};

std::string exact(Length length, Unit unit) {
  constexpr int kMostPlaces = 9;
  std::string text = fixed(length, unit, kMostPlaces);
  if (unit == Unit::mm || length_from_decimal(text, unit) != length) return exact_mm(length) + " mm";
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text + " in";
}

Said exact(const std::optional<Length>& length, Unit unit) {
  return length ? Said(exact(*length, unit)) : std::nullopt;
}

Said exact(const Limits& limits, Unit unit) {
  if (limits.lower && limits.upper) return exact(*limits.lower, unit) + " to " + exact(*limits.upper, unit);
  if (limits.lower) return "at least " + exact(*limits.lower, unit);
  if (limits.upper) return "at most " + exact(*limits.upper, unit);
  return std::nullopt;
}

Said number(const std::optional<int>& value) {
  return value ? Said(std::to_string(*value)) : std::nullopt;
}

std::string flag(bool value) {
  return value ? "true" : "false";
}

Part part_of(const Feature& feature, Unit unit) {
  Part part{"feature", feature.name};
  part.add("kind", std::string(name(feature.kind)));
  part.add("count", std::string(kCounts.of(feature.count_by)));
  part.add("labels", joined(feature.labels));
  part.add("size", feature.size_text);
  part.add("limits", exact(feature.limits, unit));
  part.add("levels", joined(feature.levels));
  part.add("axes", joined(feature.axes));
  part.add("out_of_round", exact(feature.out_of_round, unit));
  part.add("taper", exact(feature.taper, unit));
  part.add("out_of_round_by", std::string(name(feature.out_of_round_by)));
  part.add("taper_by", std::string(name(feature.taper_by)));
  part.add("shape", feature.shape ? Said(name(*feature.shape)) : std::nullopt);
  part.add("window", feature.window ? exact(*feature.window, unit) : std::nullopt);
  part.add("repeat", exact(feature.repeat, unit));
  part.add("where", feature.where);
  part.add("setup", feature.setup);
  part.add("fitted_in", feature.fitted_in);
  part.add("fastest", std::string(kFastest.of(feature.fastest)));
  part.add("presses", number(feature.presses));
  part.add("material", feature.material);
  part.add("source", feature.source);
  part.add("before", joined(feature.before));
  return part;
}

Part part_of(const Fit& fit, Unit unit) {
  Part part{"fit", fit.name};
  part.add("inside", fit.inside);
  part.add("outside", fit.outside);
  part.add("limits", exact(fit.limits, unit));
  part.add("target", exact(fit.target, unit));
  part.add("judge", std::string(kJudges.of(fit.judge)));
  part.add("inside_levels", joined(fit.inside_levels));
  part.add("outside_levels", joined(fit.outside_levels));
  part.add("inside_axes", joined(fit.inside_axes));
  part.add("outside_axes", joined(fit.outside_axes));
  part.add("seats", joined(fit.seats));
  part.add("coated", std::string(kCoated.of(fit.coated)));
  part.add("mix_halves", flag(fit.mix_halves));
  part.add("wall_difference", exact(fit.wall_difference, unit));
  part.add("thicker", fit.thicker ? Said(name(*fit.thicker)) : std::nullopt);
  part.add("swap", flag(fit.swap));
  part.add("match", flag(fit.match));
  return part;
}

Part part_of(const Spread& spread, Unit unit) {
  Part part{"spread", spread.feature};
  part.add("limit", exact(spread.limit, unit));
  part.add("by", std::string(kSpreads.of(spread.by)));
  return part;
}

Part part_of(const Layout& layout) {
  Words pins;
  for (const Words& pin : layout.pins) pins.push_back("[" + joined(pin) + "]");
  Part part{"layout", ""};
  part.add("cylinders", number(layout.cylinders));
  part.add("mains", number(layout.mains));
  part.add("crankpins", number(layout.crankpins));
  part.add("viewed_from", layout.viewed_from);
  part.add("labels", joined(layout.labels));
  part.add("main_labels", joined(layout.main_labels));
  part.add("pins", joined(pins));
  return part;
}

std::vector<Part> parts_of(const Spec& spec, Unit unit) {
  Part head{"spec", ""}, facts{"facts", ""}, materials{"material", ""};
  head.add("title", spec.title);
  head.add("unit", std::string(name(spec.unit)));
  for (const auto& [key, value] : spec.facts) facts.add(key, value);
  for (const auto& [key, expansion] : spec.materials) materials.add(key, in_millionths(expansion));
  std::vector<Part> parts = {head, part_of(spec.layout), facts, materials};
  for (const Feature& feature : spec.features) parts.push_back(part_of(feature, unit));
  for (const Fit& fit : spec.fits) parts.push_back(part_of(fit, unit));
  for (const Spread& spread : spec.spreads) parts.push_back(part_of(spread, unit));
  return parts;
}

const Part* find(const std::vector<Part>& parts, const Part& like) {
  const auto found =
      std::ranges::find_if(parts, [&](const Part& part) { return part.of == like.of && part.name == like.name; });
  return found == parts.end() ? nullptr : &*found;
}

void compare(std::vector<SpecChange>& changes, const Part& before, const Part& after) {
  for (const auto& [key, value] : after.lines)
    if (before.at(key) != value) changes.push_back({after.of, after.name, key, before.at(key), value});
  for (const auto& [key, value] : before.lines)
    if (!after.at(key)) changes.push_back({after.of, after.name, key, value, std::nullopt});
}

}  // namespace

std::vector<SpecChange> difference(const Spec& before, const Spec& after) {
  const std::vector<Part> earlier = parts_of(before, after.unit), later = parts_of(after, after.unit);
  std::vector<SpecChange> changes;
  for (const Part& part : later) {
    if (const Part* const same = find(earlier, part))
      compare(changes, *same, part);
    else
      changes.push_back({part.of, part.name, "", std::nullopt, part.lines.front().second});
  }
  for (const Part& part : earlier)
    if (find(later, part) == nullptr)
      changes.push_back({part.of, part.name, "", part.lines.front().second, std::nullopt});
  return changes;
}

std::vector<Place> vanishing(const Engine& engine, const Spec& after) {
  std::set<Place> used;
  for (const Reading& reading : engine.readings)
    if (reading.place) used.insert(*reading.place);
  for (const auto& [where, answer] : engine.answers) used.insert({where.first, where.second, "", ""});
  std::vector<Place> gone;
  std::ranges::copy_if(used, std::back_inserter(gone), [&](const Place& place) {
    return !has_place(after, place) || after.find(place.feature)->kind != engine.spec->find(place.feature)->kind;
  });
  return gone;
}

}  // namespace tenth
