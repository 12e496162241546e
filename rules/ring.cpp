#include "rules/ring.hpp"

#include "rules/figure.hpp"
#include "rules/place.hpp"

namespace tenth {
namespace {

Result<Sample> whole(const CountingMap& counts, const Feature& feature, int index) {
  Sample sizes = sample(counts, places_of(feature, index));
  if (sizes.complete()) return sizes;
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
  TENTH_TRY([[maybe_unused]] const Sample gap, whole(counts, feature, index));
  TENTH_TRY(const Sample now, whole(counts, *bore, index));
  TENTH_TRY(const Sample would, whole(counts, *bore, other));
  const bool at_20c = now.corrected && would.corrected;  // else one of them would be warm and the other not
  moved.bore_now = at_20c ? *now.mean() : mean(now.as_read);
  moved.bore_would = at_20c ? *would.mean() : mean(would.as_read);
  for (const Place& place : places_of(feature, index)) {
    Counting& here = counts.at(place);
    here.size = here.size + gap_growth(moved.bore_would - moved.bore_now);
  }
  moved.would = judge_feature(engine, counts, feature, index);
  return moved;
}

}  // namespace tenth
