// Whole engines of the longest lengths that can reach the rules: 300 m out of a forged ledger.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "rules/alerts.hpp"
#include "rules/budget.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::Workpiece;

constexpr Length kFarthest = kLongest * 3;

Length far_length() {
  const Length end = *rc::gen::arbitrary<bool>() ? kFarthest : -kFarthest;
  const auto inwards = *rc::gen::element<std::int64_t>(0, 1, 1'000'000'000, kFarthest.pm());
  return end + Length::from_pm(end > Length() ? -inwards : inwards);
}

Limits far_limits() {
  const Length one = far_length(), other = far_length();
  return {std::min(one, other), std::max(one, other)};
}

void add_feature(Workpiece& work, const char* name, Kind kind) {
  Feature& feature = work.feature(name, kind, far_limits(), 2);
  feature.levels = {"top", "middle", "low"};
  feature.axes = {"x", "y"};
  feature.out_of_round = feature.taper = Length();
  feature.out_of_round_by = static_cast<OutOfRoundBy>(*rc::gen::inRange(0, 2));
  feature.taper_by = static_cast<TaperBy>(*rc::gen::inRange(0, 4));
  feature.shape = Shape::barrel;
  feature.presses = *rc::gen::element(1, 2);
  feature.material = "hot";
}

/// All places read twice, at the hottest, with gauges that state as much as can be stated.
Workpiece extreme() {
  Workpiece work;
  work.spec.materials["hot"] = Expansion{1'000'000'000};
  add_feature(work, "bore", Kind::inside);
  add_feature(work, "piston", Kind::outside);
  work.fit("clearance", "bore", "piston", far_limits()).judge = static_cast<JudgeBy>(*rc::gen::inRange(0, 2));
  work.spec.spreads.push_back({"bore", Length(), static_cast<SpreadBy>(*rc::gen::inRange(0, 2))});
  const bool warm = *rc::gen::arbitrary<bool>();
  for (int time = 0; time < 2; ++time)
    for (const Feature& feature : work.spec.features)
      for (int index = 1; index <= 2; ++index)
        for (const Place& place : places_of(feature, index)) {
          Reading& reading = work.read(slashed(place, std::to_string(place.index)), far_length());
          reading.uncertainty = reading.repeatability = *rc::gen::element(Length(), kFarthest);
          if (!warm) continue;
          reading.temperatures =
              Temperatures{1, *parse_temperature("150"), *parse_temperature("-50"), *parse_within("50")};
          reading.size_20c = size_20c_of(reading, work.spec);
        }
  return work;
}

/// Sizes at 20 °C are a quarter longer at most; three of a kind summed up stay far from the end of 64 bits.
bool sane(std::optional<Length> length) {
  return length && length->magnitude() < kFarthest * 4;
}

RC_GTEST_PROP(EdgesOfJudging, FiguresAreInOrderAndFarFromTheEnd, ()) {
  Workpiece work = extreme();
  const Report report = judge(work.done());
  for (const FeatureResult& result : report.features) {
    RC_ASSERT(sane(result.min) && sane(result.mean) && sane(result.max));
    RC_ASSERT(*result.min <= *result.mean && *result.mean <= *result.max);
    RC_ASSERT(sane(result.out_of_round) && *result.out_of_round >= Length());
    RC_ASSERT(sane(result.taper) && *result.taper >= Length());
    RC_ASSERT(result.shape && result.shape->belly);
  }
  for (const FitResult& result : report.fits) {
    RC_ASSERT(sane(result.min) && sane(result.mean) && sane(result.max) && result.uncertainty >= Length());
    RC_ASSERT(*result.min <= *result.mean && *result.mean <= *result.max);
    RC_ASSERT(*result.probability >= 0 && *result.probability <= 1);
  }
  RC_ASSERT(sane(report.spreads.front().spread));
}

RC_GTEST_PROP(EdgesOfJudging, AlertsAreWordedAtAnyLength, ()) {
  Workpiece work = extreme();
  work.spec.unit = *rc::gen::element(Unit::mm, Unit::in);
  const Engine& engine = work.done();
  const Report report = judge(engine);
  for (const Cause& cause : causes(engine, report)) RC_ASSERT(cause.text.find("--") == std::string::npos);
}

RC_GTEST_PROP(EdgesOfJudging, ABudgetStaysWithinItsNumbers, ()) {
  Workpiece work = extreme();
  const Engine& engine = work.done();
  const Fit& fit = engine.spec->fits.front();
  const FitBudget found = fit_budget(engine, fit, fit.couples.front());
  for (const BudgetTerm& term : found.budget.terms) {
    RC_ASSERT(term.value >= Length() || term.mean < Length());
    RC_ASSERT(term.value.magnitude() < kFarthest * 2);
  }
  RC_ASSERT(found.result.uncertainty >= Length() && sane(found.result.uncertainty));
  for (const Settling& one : found.settling) RC_ASSERT(one.at_most >= Length() && one.within.ninths_uk >= 0);
}

TEST(EdgesOfJudging, AsManyPlacesAsASpecMayHave) {
  Workpiece work;
  Feature& feature = work.feature("bore", Kind::inside, {Length(), kFarthest});
  feature.axes = {"x", "y"};
  for (int level = 0; level < 20'000; ++level) feature.levels.push_back("l" + std::to_string(level));
  Reading reading;
  reading.size = kFarthest;
  for (const Place& place : places_of(feature, 1)) {
    reading.place = place;
    work.engine.readings.push_back(reading);
  }
  const FeatureResult result = work.judged("bore");
  EXPECT_EQ(result.mean, kFarthest);  // 40 000 × 300 m is more than 64 bits hold
  EXPECT_EQ(result.readings, 40'000);
  EXPECT_EQ(result.verdict, Verdict::in);
}

TEST(EdgesOfJudging, AsManyPressesAsASpecMayAsk) {
  Workpiece work;
  work.feature("bore", Kind::inside, {Length(), kFarthest}).presses = std::numeric_limits<int>::max();
  for (int press = 0; press < 100; ++press) work.read("bore/1", kFarthest);
  EXPECT_EQ(work.judged("bore").missing, 1);
  work.spec.features.front().presses = 100;
  EXPECT_EQ(work.judged("bore").mean, kFarthest);
}

}  // namespace
}  // namespace tenth
