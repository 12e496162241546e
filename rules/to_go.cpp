#include "rules/to_go.hpp"

#include <algorithm>

#include "rules/couples.hpp"
#include "rules/figure.hpp"
#include "rules/fit.hpp"

namespace tenth {

std::optional<ToGo> to_go(const Engine& engine, const CountingMap& counts, const Place& place) {
  for (const Fit& fit : engine.spec->fits)
    for (const Couple& couple : couples_of(engine, fit)) {
      if (!fit.target) continue;
      const FitPlaces used = places_of_fit(*engine.spec, fit, couple);
      const bool inside = std::ranges::find(used.inside, place) != used.inside.end();
      if (!inside && std::ranges::find(used.outside, place) == used.outside.end()) continue;
      const FitResult result = judge_fit(engine, counts, fit, couple);
      if (!result.mean) continue;
      const Length clearance = *fit.target - *result.mean;
      const Length mean = *sample(counts, inside ? used.inside : used.outside).mean();
      return ToGo{clearance, inside ? mean + clearance : mean - clearance};
    }
  return std::nullopt;
}

}  // namespace tenth
