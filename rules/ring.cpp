#include "rules/ring.hpp"

#include "rules/figure.hpp"
#include "rules/place.hpp"

namespace tenth {
namespace {

Result<Length> whole_mean(const CountingMap& counts, const Feature& feature, int index) {
  const Sample sizes = sample(counts, places_of(feature, index));
  if (sizes.complete()) return *sizes.mean();
  return refuse("incomplete", feature.name + " " + label_of(feature, index) + " is not measured whole",
                "tenth round " + feature.name);
}

}  // namespace

Length gap_aim(const Feature& feature) {
  const Limits& limits = feature.limits;
  if (!limits.lower || !limits.upper) return limits.lower ? *limits.lower : *limits.upper;
  return mean(std::vector{*limits.lower, *limits.upper});
}

Length gap_growth(Length larger) {
  return Length::from_pm(divide_rounded(Wide{larger.pm()} * 355, 113));
}

Result<MovedRing> ring_in_bore(const Engine& engine, const Feature& feature, int index, int other) {
  const Feature* const bore = engine.spec->find(feature.fitted_in);
  if (bore == nullptr)
    return refuse("no_bore", "the spec does not say which bore " + feature.name + " is fitted in",
                  "write fitted_in = \"bore\" under [feature." + feature.name + "], and `tenth engine respec`");
  CountingMap counts = counting(engine);
  MovedRing moved;
  moved.now = judge_feature(engine, counts, feature, index);
  TENTH_TRY([[maybe_unused]] const Length gap, whole_mean(counts, feature, index));
  TENTH_TRY(moved.bore_now, whole_mean(counts, *bore, index));
  TENTH_TRY(moved.bore_would, whole_mean(counts, *bore, other));
  for (const Place& place : places_of(feature, index)) {
    Counting& here = counts.at(place);
    here.size = here.size + gap_growth(moved.bore_would - moved.bore_now);
  }
  moved.would = judge_feature(engine, counts, feature, index);
  return moved;
}

}  // namespace tenth
