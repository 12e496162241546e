#pragma once

#include <optional>
#include <string>
#include <utility>

#include "rules/judge.hpp"
#include "rules/remedies/stock.hpp"

namespace tenth {

/// What to suppose of one index of a fit; what is empty stays as it is.
struct Supposed {
  std::optional<Length> inside = {}, outside = {};                 ///< this size everywhere
  std::optional<std::pair<std::string, std::string>> shells = {};  ///< ids of the upper and the lower half put in
  std::optional<Warmth> temperature = {};  ///< both parts this warm, their sizes being those at 20 °C
};

/// The fit of one index (of the inside part) as it would be; changes nothing. Uncertainties stay those of the gauges
/// used, joined by that of the walls. Refused (4): an unknown id (`unknown_shell`), a wall that is not known, of the
/// halves put in or fitted (`unknown_wall`), a material that is not known (`unknown_material`).
Result<FitResult> what_if(const Engine& engine, const Stock* stock, const Fit& fit, int index,
                          const Supposed& supposed);

}  // namespace tenth
