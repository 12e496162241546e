#include "rules/figure.hpp"
#include "rules/uncertainty.hpp"

namespace tenth {

SpreadResult judge_spread(const Engine& engine, const CountingMap& counts, const Spread& spread) {
  const Feature& feature = *engine.spec->find(spread.feature);
  const bool by_means = spread.by == SpreadBy::means;
  std::vector<Place> places;
  std::vector<Length> means;
  for (int index = 1; index <= feature.count(); ++index) {
    const std::vector<Place> here = places_of(feature, index);
    if (const auto mean = sample(counts, here).mean()) means.push_back(*mean);
    places.insert(places.end(), here.begin(), here.end());
  }
  const Sample all = sample(counts, places);
  SpreadResult result;
  result.feature = spread.feature;
  result.limit = spread.limit;
  result.spread = range(by_means ? means : all.sizes);
  if (all.repeatability) result.uncertainty = root_sum_of_squares(*all.repeatability, *all.repeatability);
  if (all.complete() && !result.spread) return result;  // one alone has no spread: nothing to judge
  Findings findings;
  hold(findings, "spread", {result.spread, all.complete(), by_means}, spread.limit, Side::upper, result.uncertainty);
  hold_setup(findings, engine, feature);
  result.verdict = findings.verdict;
  return result;
}

}  // namespace tenth
