#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "rules/judge.hpp"

namespace tenth {

/// The builder's own name of a position.
const std::string& label_of(const Feature& feature, int index);

/// The counting readings at a row of places.
struct Sample {
  std::vector<Length> sizes;
  int missing = 0;  ///< places without one
  bool carried = false;
  std::optional<Length> uncertainty, repeatability;  ///< the largest of the gauges used; empty: one has none
  bool corrected = false;                            ///< to 20 °C
  std::optional<Warmth> within;                      ///< how well the temperatures are known, the worst
  std::vector<Length> as_read;

  bool complete() const { return missing == 0 && !sizes.empty(); }
  std::optional<Length> smallest() const;
  std::optional<Length> largest() const;
  std::optional<Length> mean() const;
};
Sample sample(const CountingMap& counts, std::span<const Place> places);

/// Largest less smallest; none of fewer than two lengths.
std::optional<Length> range(std::span<const Length> lengths);

/// A figure as far as the readings give it.
struct Figure {
  std::optional<Length> value;
  bool complete = false;  ///< every reading that it is made of is there
  bool may_heal = false;  ///< readings still to come may bring it back from beyond a limit, so it is not out before
};

/// What was found of one thing: its worst part and why it is not in, worst first.
struct Findings {
  std::optional<Verdict> verdict;
  std::vector<Reason> reasons;
};

/// Nothing is in where what must be done before measuring was not said; where nothing is judged, nothing is asked for.
void hold_setup(Findings& findings, const Engine& engine, const Feature& feature);

/// Holds a figure against a limit; without a limit there is nothing to find.
void hold(Findings& findings, std::string what, const Figure& figure, std::optional<Length> limit, Side side,
          std::optional<Length> uncertainty);

}  // namespace tenth
