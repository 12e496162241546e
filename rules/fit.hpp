#pragma once

#include <vector>

#include "rules/place.hpp"

namespace tenth {

/// The places whose readings a fit uses, on each side of one couple.
struct FitPlaces {
  std::vector<Place> inside, outside;
};
FitPlaces places_of_fit(const Spec& spec, const Fit& fit, const Couple& couple);

}  // namespace tenth
