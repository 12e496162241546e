#pragma once

#include "rules/figure.hpp"

namespace tenth {

/// The forms of one index of a feature, each by the definition that the feature names. All are differences of
/// diameters. Empty where the feature's levels or axes cannot give it: out-of-round wants two axes, taper two levels.
struct Forms {
  std::optional<Figure> out_of_round, taper;
};
Forms forms(const CountingMap& counts, const Feature& feature, int index);

}  // namespace tenth
