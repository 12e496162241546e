#include "rules/to_go.hpp"

#include "rules/couples.hpp"

namespace tenth {

std::optional<ToGo> to_go(const Engine& engine, const CountingMap& counts, const Place& place) {
  for (const Fit& fit : engine.spec->fits)
    for (const Couple& couple : couples_of(engine, fit)) {
      const bool inside = fit.inside == place.feature && couple.inside_index == place.index;
      const bool outside = fit.outside == place.feature && couple.outside_index == place.index;
      if (!fit.target || (!inside && !outside)) continue;
      const FitResult result = judge_fit(engine, counts, fit, couple);
      if (!result.mean) continue;
      const Length clearance = *fit.target - *result.mean;
      return ToGo{clearance, inside ? clearance : -clearance};
    }
  return std::nullopt;
}

}  // namespace tenth
