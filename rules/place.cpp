#include "rules/place.hpp"

#include <algorithm>

#include "rules/joined.hpp"
#include "rules/nearest.hpp"

namespace tenth {

namespace {

using Words = std::span<const std::string>;

std::vector<std::string> feature_names(const Spec& spec) {
  std::vector<std::string> names;
  for (const auto& feature : spec.features) names.push_back(feature.name);
  return names;
}

std::vector<std::string> beginning_with(const std::string& word, Words candidates) {
  std::vector<std::string> found;
  std::copy_if(candidates.begin(), candidates.end(), std::back_inserter(found),
               [&](const std::string& candidate) { return candidate.starts_with(word); });
  return found;
}

/// The candidate that `word` names; `what` is "feature", "index", "level" or "axis", `of` says of what, for the
/// refusal.
Result<std::string> choose(const std::string& what, const std::string& word, Words candidates, const std::string& of) {
  if (auto found = unique_beginning(word, candidates); !found.empty()) return found;
  const auto several = beginning_with(word, candidates);
  if (!word.empty() && several.size() > 1)
    return refuse("ambiguous_" + what, quoted(word) + " may be " + joined(several), "write more of the " + what);
  const std::string near = nearest(word, candidates);
  const std::string choices =
      candidates.empty() ? (of.empty() ? "the spec" : of) + " has none" : "choose from: " + joined(candidates);
  return refuse("unknown_" + what, "no " + what + " " + quoted(word) + (of.empty() ? "" : " of " + of),
                near.empty() ? choices : "did you mean " + near + "? " + choices);
}

/// Takes the next word as a level or axis, where the feature has them.
Result<std::string> take(const std::string& what, Words& words, Words candidates, const std::string& of) {
  if (candidates.empty()) return std::string();
  if (words.empty())
    return refuse("missing_" + what, of + " needs " + (what == "axis" ? "an " : "a ") + what,
                  "add one of: " + joined(candidates));
  const std::string word = words.front();
  words = words.subspan(1);
  return choose(what, word, candidates, of);
}

/// An index of an earlier spec, which the feature has no more, goes by its number.
std::string label_at(const Feature& feature, int index) {
  return index > feature.count() ? std::to_string(index) : feature.labels[static_cast<std::size_t>(index - 1)];
}

/// The index may be left out where there is one only: then it is there if a word is left over or names it outright.
bool gives_index(const Feature& feature, Words words) {
  if (feature.count() > 1) return true;
  const std::size_t others = (feature.levels.empty() ? 0U : 1U) + (feature.axes.empty() ? 0U : 1U);
  return words.size() > others || (!words.empty() && words.front() == feature.labels.front());
}

Result<int> take_index(const Feature& feature, Words& words) {
  if (!gives_index(feature, words)) return 1;
  if (words.empty())
    return refuse("missing_index", feature.name + " needs an index", "add one of: " + joined(feature.labels));
  const std::string word = words.front();
  words = words.subspan(1);
  return find_index(feature, word);
}

Result<Place> find_on(const Feature& feature, Words words) {
  const auto index = take_index(feature, words);
  if (!index) return tl::unexpected(index.error());
  const auto level = take("level", words, feature.levels, feature.name);
  if (!level) return tl::unexpected(level.error());
  const auto axis = take("axis", words, feature.axes, feature.name);
  if (!axis) return tl::unexpected(axis.error());
  const Place place{feature.name, *index, *level, *axis};
  if (!words.empty())
    return refuse("too_many_words",
                  quoted(words.front()) + " is one word too many: " + slashed(place, label_at(feature, *index)) +
                      " is a whole place",
                  "leave it out");
  return place;
}

std::vector<std::string> split_at_slashes(std::string_view word) {
  std::vector<std::string> parts;
  for (std::size_t slash = word.find('/'); slash != std::string_view::npos; slash = word.find('/')) {
    parts.emplace_back(word.substr(0, slash));
    word.remove_prefix(slash + 1);
  }
  parts.emplace_back(word);
  return parts;
}

Result<std::vector<const Feature*>> features_asked(const Spec& spec, const std::vector<std::string>& names) {
  std::vector<const Feature*> features;
  for (const auto& name : names) {
    const auto feature = find_feature(spec, name);
    if (!feature) return tl::unexpected(feature.error());
    if (std::find(features.begin(), features.end(), *feature) == features.end()) features.push_back(*feature);
  }
  if (names.empty())
    for (const auto& feature : spec.features) features.push_back(&feature);
  return features;
}

void add_places(std::vector<Place>& order, const Feature& feature, int index) {
  if (index > feature.count()) return;
  const auto places = places_of(feature, index);
  order.insert(order.end(), places.begin(), places.end());
}

std::vector<Place> ordered(const std::vector<const Feature*>& features, RoundBy by) {
  int most = 0;
  for (const Feature* feature : features) most = std::max(most, feature->count());
  std::vector<Place> order;
  if (by == RoundBy::index) {
    for (int index = 1; index <= most; ++index)
      for (const Feature* feature : features) add_places(order, *feature, index);
  } else {
    for (const Feature* feature : features)
      for (int index = 1; index <= feature->count(); ++index) add_places(order, *feature, index);
  }
  return order;
}

}  // namespace

std::string spoken(const Place& place, const Spec& spec) {
  std::string words = place.feature;
  const Feature* feature = spec.find(place.feature);
  if (feature == nullptr)
    words += " " + std::to_string(place.index);  // of an earlier spec
  else if (feature->count() > 1 || place.index > 1)
    words += " " + label_at(*feature, place.index);
  if (!place.level.empty()) words += " " + place.level;
  if (!place.axis.empty()) words += " " + place.axis;
  return words;
}

std::string slashed(const Place& place, const std::string& label) {
  std::string words = place.feature + "/" + label;
  if (!place.level.empty()) words += "/" + place.level;
  if (!place.axis.empty()) words += "/" + place.axis;
  return words;
}

std::string slashed(const Place& place, const Spec& spec) {
  const Feature* feature = spec.find(place.feature);
  return slashed(place, feature == nullptr ? std::to_string(place.index) : label_at(*feature, place.index));
}

Result<const Feature*> find_feature(const Spec& spec, const std::string& word) {
  const auto name = choose("feature", word, feature_names(spec), "");
  if (!name) return tl::unexpected(name.error());
  return spec.find(*name);
}

Result<const Fit*> find_fit(const Spec& spec, const std::string& word) {
  std::vector<std::string> names;
  for (const Fit& fit : spec.fits) names.push_back(fit.name);
  const auto name = choose("fit", word, names, "");
  if (!name) return tl::unexpected(name.error());
  return &*std::find_if(spec.fits.begin(), spec.fits.end(), [&](const Fit& fit) { return fit.name == *name; });
}

Result<int> find_index(const Feature& feature, const std::string& word) {
  const auto label = choose("index", word, feature.labels, feature.name);
  if (!label) return tl::unexpected(label.error());
  const auto at = std::find(feature.labels.begin(), feature.labels.end(), *label);
  return static_cast<int>(at - feature.labels.begin()) + 1;
}

Result<Place> find_place(const Spec& spec, Words words) {
  if (words.empty())
    return refuse("missing_feature", "no feature is named", "add one of: " + joined(feature_names(spec)));
  std::vector<std::string> parts(words.begin(), words.end());
  if (words.size() == 1) parts = split_at_slashes(words.front());
  const auto feature = find_feature(spec, parts.front());
  if (!feature) return tl::unexpected(feature.error());
  return find_on(**feature, Words(parts).subspan(1));
}

bool has_place(const Spec& spec, const Place& place) {
  const Feature* const feature = spec.find(place.feature);
  if (feature == nullptr || place.index < 1 || place.index > feature->count()) return false;
  const auto has = [](const std::vector<std::string>& names, const std::string& name) {
    return names.empty() ? name.empty() : std::find(names.begin(), names.end(), name) != names.end();
  };
  return has(feature->levels, place.level) && has(feature->axes, place.axis);
}

std::vector<Place> places_of(const Feature& feature, int index) {
  static const std::vector<std::string> none = {""};
  const auto& levels = feature.levels.empty() ? none : feature.levels;
  const auto& axes = feature.axes.empty() ? none : feature.axes;
  std::vector<Place> places;
  places.reserve(levels.size() * axes.size());
  if (feature.fastest == Fastest::axis) {
    for (const auto& level : levels)
      for (const auto& axis : axes) places.push_back({feature.name, index, level, axis});
  } else {
    for (const auto& axis : axes)
      for (const auto& level : levels) places.push_back({feature.name, index, level, axis});
  }
  return places;
}

Result<std::vector<Place>> round_order(const Spec& spec, const RoundAsk& ask) {
  const auto features = features_asked(spec, ask.features);
  if (!features) return tl::unexpected(features.error());
  auto order = ordered(*features, ask.by);
  if (ask.from.empty() || features->empty()) return order;
  const auto first = find_index(*features->front(), ask.from);
  if (!first) return tl::unexpected(first.error());
  // What comes before it in the order is left out; the features after it are walked whole.
  order.erase(order.begin(),
              std::find_if(order.begin(), order.end(), [&](const Place& place) { return place.index == *first; }));
  return order;
}

}  // namespace tenth
