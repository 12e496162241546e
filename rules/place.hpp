#pragma once

#include <compare>
#include <span>
#include <string>
#include <vector>

#include "rules/result.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// One spot on one feature. `index` is the position from 1; level and axis are empty where the feature lacks them.
struct Place {
  std::string feature;
  int index = 1;
  std::string level, axis;
  friend auto operator<=>(const Place&, const Place&) = default;
};

/// "bore 3 top thrust", with the label of the index; the index is left out where the feature has one only.
std::string spoken(const Place& place, const Spec& spec);

/// "bore/3/top/thrust", with the label of the index; what the feature lacks is left out. Typed back, it is the same
/// place.
std::string slashed(const Place& place, const std::string& label);
std::string slashed(const Place& place, const Spec& spec);

/// The place that the words mean: FEATURE [INDEX] [LEVEL] [AXIS], or one word in slash form. Index by label; names by a
/// unique beginning. Refused (4) with the nearest right word where one is unknown, missing or ambiguous.
Result<Place> find_place(const Spec& spec, std::span<const std::string> words);

/// The feature and position that FEATURE [INDEX] mean, as in `find_place`, and the number of words used.
Result<const Feature*> find_feature(const Spec& spec, const std::string& word);
Result<const Fit*> find_fit(const Spec& spec, const std::string& word);
Result<int> find_index(const Feature& feature, const std::string& word);

/// The spec asks for this place: its feature, index, level and axis are all there.
bool has_place(const Spec& spec, const Place& place);

/// All places of one index of a feature: level, then axis fastest, unless the feature turns that.
std::vector<Place> places_of(const Feature& feature, int index);

enum class RoundBy { feature, index };

struct RoundAsk {
  std::vector<std::string> features;  ///< empty: all of the spec
  RoundBy by = RoundBy::feature;
  std::string from;  ///< label of the first index walked; empty: the first
  bool again = false;
};

/// The guided order: features as named (else as in the spec), then index; `by index` takes all features of 1, then 2.
Result<std::vector<Place>> round_order(const Spec& spec, const RoundAsk& ask);

}  // namespace tenth
