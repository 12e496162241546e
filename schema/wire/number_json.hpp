#pragma once

#include <cmath>
#include <optional>

#include "schema/json/json.hpp"

namespace tenth {

/// A statistic in millimetres: nine places, as lengths have. Its last bits differ between systems.
inline Json estimated_mm(double millimetres) {
  constexpr double kPlaces = 1e9;
  return std::round(millimetres * kPlaces) / kPlaces;
}
inline Json estimated_mm(const std::optional<double>& millimetres) {
  return millimetres ? estimated_mm(*millimetres) : Json(nullptr);
}

/// A ratio, a percentage, a probability, days: six places.
inline Json estimated(double number) {
  constexpr double kPlaces = 1e6;
  return std::round(number * kPlaces) / kPlaces;
}
inline Json estimated(const std::optional<double>& number) {
  return number ? estimated(*number) : Json(nullptr);
}

}  // namespace tenth
