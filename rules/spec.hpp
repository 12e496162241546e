#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "rules/length.hpp"
#include "rules/thermal.hpp"

namespace tenth {

/// What a feature is, and so which gauges may measure it. A `check` is answered yes, no, later or n/a and has no size.
enum class Kind { inside, outside, gap, depth, check };
enum class CountBy { number, cylinders, mains, crankpins };
enum class OutOfRoundBy { same_level, across_levels };
enum class TaperBy { along_axis, ends, pairs, level_means };
enum class Fastest { axis, level };
/// A shape along the levels: a bore may be meant to be wider at one end, a piston skirt to be a barrel.
enum class Shape { straight, first_wider, last_wider, barrel, waist };
enum class JudgeBy { extremes, mean };
enum class SpreadBy { means, readings };
enum class Coated { may, must, never };
enum class Half { upper, lower, either };

/// Limits are inclusive; either may be absent.
struct Limits {
  std::optional<Length> lower, upper;
  bool any() const { return lower || upper; }
  friend bool operator==(const Limits&, const Limits&) = default;
};

/// A thing with a size, as the spec describes it.
struct Feature {
  std::string name;
  CountBy count_by = CountBy::number;
  std::vector<std::string> labels = {"1"};  ///< one for each index, in order; their number is the count
  Kind kind = Kind::inside;
  std::string size_text;  ///< an ISO 286 class as written, "83 H7"; empty where limits are given
  Limits limits;
  std::vector<std::string> levels, axes;      ///< empty: the feature has none
  std::optional<Length> out_of_round, taper;  ///< upper limits of form
  OutOfRoundBy out_of_round_by = OutOfRoundBy::same_level;
  TaperBy taper_by = TaperBy::along_axis;
  std::optional<Limits> window;  ///< outside it a reading is suspect; both limits present
  std::optional<Length> repeat;  ///< how far two readings at one place may lie apart
  std::string where, material, source;
  std::string fitted_in;  ///< gaps only: the bores, one for each index, that they are measured in; empty: not told
  std::string setup;      ///< what must be done, and said, before results count: "torque plates fitted"; empty: nothing
  std::optional<Shape> shape;  ///< as intended: then the one found is told
  Fastest fastest = Fastest::axis;
  int presses = 1;                  ///< kept readings asked for at each place
  std::vector<std::string> before;  ///< checks only: features that must not be measured before the answer

  int count() const { return static_cast<int>(labels.size()); }
};

/// One pair of mating parts: positions from 1. `outside_level` is the seat of a rod on a shared crankpin, else empty.
struct Couple {
  int inside_index = 0;
  int outside_index = 0;  ///< 0: its mate went to another, so the fit stays incomplete
  std::string outside_level;
  friend bool operator==(const Couple&, const Couple&) = default;
};

/// Inside minus outside of two mating features.
struct Fit {
  std::string name, inside, outside;
  Limits limits;
  std::optional<Length> target;
  JudgeBy judge = JudgeBy::extremes;
  std::vector<std::string> inside_levels, outside_levels, inside_axes, outside_axes;  ///< empty: all
  std::vector<std::string> seats;
  std::vector<Couple> couples;  ///< one for each index of the inside part, as the spec pairs them (see `couples_of`)
  Coated coated = Coated::may;  ///< what is asked of each bearing half put in
  bool mix_halves = true;       ///< false: both halves of a bearing are of one series and undersize
  std::optional<Length> wall_difference;  ///< how far the walls of two halves may differ
  std::optional<Half> thicker;            ///< the half that may be the thicker one; empty: either
  bool swap = true;                       ///< false: a fitted half goes to no other seat
  bool match = false;                     ///< the outside parts may be matched to other inside parts
};

/// Sameness along a row of features.
struct Spread {
  std::string feature;
  Length limit;
  SpreadBy by = SpreadBy::means;
};

struct Layout {
  std::optional<int> cylinders, mains, crankpins;
  std::string viewed_from;
  std::vector<std::string> labels, main_labels;
  std::vector<std::vector<std::string>> pins;  ///< the labels of the rods on crankpin 1, 2, …
};

/// Everything asked of one engine. Features, fits and spreads stand in the order of the file.
struct Spec {
  std::string title;
  Unit unit = Unit::mm;
  Layout layout;
  std::vector<std::pair<std::string, std::string>> facts;
  std::vector<Feature> features;
  std::vector<Fit> fits;
  std::vector<Spread> spreads;
  std::map<std::string, Expansion> materials;  ///< the builder's own, by name

  const Feature* find(std::string_view feature_name) const;
};

std::string_view name(Kind);
std::string_view name(OutOfRoundBy);
std::string_view name(TaperBy);
std::string_view name(Shape);
std::string_view name(Half);

}  // namespace tenth
