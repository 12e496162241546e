#pragma once

#include "rules/engine.hpp"

namespace tenth {

/// A kept reading that lies too far from the others at its place to belong to them, if these are normally distributed.
/// It is shown and goes on counting: only a person drops it.
struct Outlying {
  std::int64_t seq = 0;
  Place place;
  std::string label;
  Length size;
  int among = 0;        ///< kept readings at the place in its present stage
  double distance = 0;  ///< from their mean, in standard deviations, when it was found
  double critical = 0;  ///< beyond this it is an outlier, at 5 %
};

/// By place, of all places with three repeats or more: Grubbs' test to fourteen repeats, the generalized extreme
/// studentized deviate (up to a tenth of them, at least one) from fifteen on.
std::vector<Outlying> outlying(const Engine& engine);

}  // namespace tenth
