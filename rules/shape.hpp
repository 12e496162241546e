#pragma once

#include "rules/engine.hpp"

namespace tenth {

/// A shape along the levels of a part that is measured whole.
struct FoundShape {
  Length taper;                 ///< mean of the last level less mean of the first: above 0 wider at the last
  std::optional<Length> belly;  ///< mean of what lies between less mean of both ends: above 0 a barrel; wants 3 levels
  Shape shape = Shape::straight;  ///< by whichever of the two is the larger
};

/// None until every place has its reading, and of fewer than two levels.
std::optional<FoundShape> shape_of(const CountingMap& counts, const Feature& feature, int index);

}  // namespace tenth
