#include "rules/fit.hpp"

#include <cmath>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;
using testing::Workpiece;

/// Two levels of bearing over two of journal, 0.035 to 0.060 mm of clearance.
Workpiece bearing(JudgeBy by = JudgeBy::extremes) {
  Workpiece work;
  work.feature("bearing", Kind::inside, {}).levels = {"front", "rear"};
  work.feature("journal", Kind::outside, {}).levels = {"front", "rear"};
  work.fit("clearance", "bearing", "journal", limits("0.035", "0.060")).judge = by;
  return work;
}

void read_four(Workpiece& work, const char* inside_front, const char* inside_rear, const char* outside_front,
               const char* outside_rear) {
  work.read("bearing/1/front", inside_front);
  work.read("bearing/1/rear", inside_rear);
  work.read("journal/1/front", outside_front);
  work.read("journal/1/rear", outside_rear);
}

TEST(Fit, ExtremesAndMean) {
  Workpiece work = bearing();
  read_four(work, "60.040", "60.050", "59.998", "60.002");
  const FitResult result = work.fitted();
  EXPECT_EQ(result.min, len("0.038"));
  EXPECT_EQ(result.mean, len("0.045"));
  EXPECT_EQ(result.max, len("0.052"));
  EXPECT_EQ(result.verdict, Verdict::in);
  EXPECT_TRUE(result.reasons.empty());
}

TEST(Fit, MeanIsTheDifferenceOfTwoRoundedMeans) {
  Workpiece work = bearing();
  read_four(work, "60.000000001", "60.000000002", "59.000000001", "59.000000002");  // both means end in 1.5 pm
  EXPECT_EQ(work.fitted().mean, len("1"));
}

TEST(Fit, IsJudgedByBothExtremesInclusive) {
  struct Case {
    const char *inside, *outside;
    Verdict verdict;
  };
  for (const Case& edge : {Case{"60.035", "60.000", Verdict::in}, Case{"60.034999999", "60.000", Verdict::out},
                           Case{"60.060", "60.000", Verdict::in}, Case{"60.060000001", "60.000", Verdict::out}}) {
    Workpiece work = bearing();
    read_four(work, "60.045", edge.inside, edge.outside, "60.000");
    EXPECT_EQ(work.fitted().verdict, edge.verdict) << edge.inside;
  }
}

TEST(Fit, AReasonNamesTheExtreme) {
  Workpiece work = bearing();
  read_four(work, "60.030", "60.050", "60.000", "59.996");
  const FitResult result = work.fitted();
  ASSERT_EQ(result.reasons.size(), 1U);
  EXPECT_EQ(result.reasons[0].what, "clearance");
  EXPECT_EQ(result.reasons[0].value, len("0.030"));
  EXPECT_EQ(result.reasons[0].limit, len("0.035"));
  EXPECT_EQ(result.reasons[0].side, Side::lower);
}

TEST(Fit, ByItsMeanTheExtremesMayLieOutside) {
  Workpiece work = bearing(JudgeBy::mean);
  read_four(work, "60.030", "60.070", "60.000", "60.000");
  EXPECT_EQ(work.fitted().verdict, Verdict::in);
}

TEST(EarlyFit, OneReadingOfEachSideMayBeOut) {
  Workpiece tight = bearing();
  tight.read("bearing/1/front", "60.030");
  EXPECT_EQ(tight.fitted().verdict, Verdict::incomplete);
  EXPECT_EQ(tight.fitted().min, std::nullopt);
  tight.read("journal/1/rear", "60.000");
  EXPECT_EQ(tight.fitted().verdict, Verdict::out);  // the minimum can only fall
  Workpiece loose = bearing();
  loose.read("bearing/1/front", "60.070");
  loose.read("journal/1/rear", "60.000");
  EXPECT_EQ(loose.fitted().verdict, Verdict::out);  // the maximum can only rise
}

TEST(EarlyFit, WithinItsLimitsItIsIncomplete) {
  Workpiece work = bearing();
  work.read("bearing/1/front", "60.045");
  work.read("journal/1/rear", "60.000");
  EXPECT_EQ(work.fitted().verdict, Verdict::incomplete);
}

TEST(EarlyFit, AMeanWaitsForAllReadings) {
  Workpiece work = bearing(JudgeBy::mean);
  work.read("bearing/1/front", "60.090");
  work.read("journal/1/front", "60.000");
  work.read("journal/1/rear", "60.000");
  EXPECT_EQ(work.fitted().verdict, Verdict::incomplete);
  work.read("bearing/1/rear", "60.010");
  EXPECT_EQ(work.fitted().verdict, Verdict::in);  // 0.050: healed
  work.read("bearing/1/rear", "60.080");
  EXPECT_EQ(work.fitted().verdict, Verdict::out);
}

TEST(EarlyFit, AMeanThatIsTooSmallWaitsToo) {
  Workpiece work = bearing(JudgeBy::mean);
  work.read("bearing/1/front", "60.010");
  work.read("journal/1/front", "60.000");
  EXPECT_EQ(work.fitted().verdict, Verdict::incomplete);
}

TEST(FitPlaces, OnlyTheLevelsAndAxesItAsksFor) {
  Workpiece work;
  Feature& bore = work.feature("bore", Kind::inside, {});
  bore.levels = {"top", "middle", "bottom"};
  bore.axes = {"thrust", "pin"};
  work.feature("piston", Kind::outside, {}).axes = {"skirt", "pin"};
  Fit& fit = work.fit("piston_clearance", "bore", "piston", limits("0.045", "0.065"));
  fit.inside_levels = {"middle", "top"};
  fit.inside_axes = {"thrust"};
  fit.outside_axes = {"skirt"};
  work.read("bore/1/middle/thrust", "83.015");
  work.read("bore/1/top/thrust", "83.010");
  work.read("bore/1/top/pin", "83.200");
  work.read("piston/1//skirt", "82.960");
  work.read("piston/1//pin", "82.700");
  EXPECT_EQ(work.fitted().min, len("0.050"));
  EXPECT_EQ(work.fitted().max, len("0.055"));
  EXPECT_EQ(work.fitted().verdict, Verdict::in);
}

TEST(FitPlaces, OutsideLevelsToo) {
  Workpiece work = bearing();
  work.spec.fits.front().outside_levels = {"rear"};
  read_four(work, "60.045", "60.045", "59.000", "60.000");
  EXPECT_EQ(work.fitted().max, len("0.045"));
}

TEST(FitPlaces, TwoRodsOnOnePinRunOnTheirOwnSeats) {
  Workpiece work;
  work.feature("rod_bearing", Kind::inside, {}, 2).labels = {"L1", "R1"};
  work.feature("crankpin", Kind::outside, {}).levels = {"front", "rear"};
  Fit& fit = work.fit("rod_clearance", "rod_bearing", "crankpin", limits("0.035", "0.060"));
  fit.couples = {{1, 1, "front"}, {2, 1, "rear"}};
  work.read("rod_bearing/1", "52.040");
  work.read("rod_bearing/2", "52.040");
  work.read("crankpin/1/front", "52.000");
  const FitResult left = work.fitted(0), right = work.fitted(1);
  EXPECT_EQ(left.verdict, Verdict::in);
  EXPECT_EQ(right.verdict, Verdict::incomplete);
  EXPECT_EQ(right.index, 2);
  EXPECT_EQ(right.outside_index, 1);
  EXPECT_EQ(right.label, "R1");
  EXPECT_EQ(right.outside_label, "1");
}

TEST(Fit, NamesTheStageOfBothSides) {
  Workpiece work = bearing();
  read_four(work, "60.045", "60.045", "60.000", "60.000");
  work.begin_stage("journal", "ground", false);
  const FitResult result = work.fitted();
  EXPECT_EQ(result.inside_stage, "as found");
  EXPECT_EQ(result.outside_stage, "ground");
  EXPECT_EQ(result.verdict, Verdict::incomplete);
}

TEST(Fit, WithoutLimitsThereIsNoVerdictButItsTargetIsTold) {
  Workpiece work = bearing();
  work.spec.fits.front().limits = {};
  work.spec.fits.front().target = len("0.050");
  read_four(work, "60.045", "60.045", "60.000", "60.000");
  EXPECT_EQ(work.fitted().verdict, std::nullopt);
  EXPECT_EQ(work.fitted().target, len("0.050"));
}

TEST(Fit, AnInterferenceIsANegativeClearance) {
  Workpiece work = bearing();
  work.spec.fits.front().limits = limits("-0.040", "-0.010");
  read_four(work, "59.980", "59.980", "60.000", "60.000");
  EXPECT_EQ(work.fitted().min, len("-0.020"));
  EXPECT_EQ(work.fitted().verdict, Verdict::in);
}

/// All sizes alike, so both extremes are this clearance; uncertainties 0.003 and 0.004 mm make 0.005.
FitResult uncertain(const char* inside, JudgeBy by = JudgeBy::extremes) {
  Workpiece work = bearing(by);
  read_four(work, inside, inside, "60.000", "60.000");
  for (Reading& reading : work.engine.readings)
    reading.uncertainty = len(reading.place->feature == "bearing" ? "0.003" : "0.004");
  return work.fitted();
}

TEST(FitUncertainty, IsTheRootOfTheSumOfSquares) {
  EXPECT_EQ(uncertain("60.045").uncertainty, len("0.005"));
}

TEST(FitUncertainty, MakesZonesAtBothLimits) {
  EXPECT_EQ(uncertain("60.029999999").verdict, Verdict::out);
  EXPECT_EQ(uncertain("60.030").verdict, Verdict::doubtful);
  EXPECT_EQ(uncertain("60.039999999").verdict, Verdict::doubtful);
  EXPECT_EQ(uncertain("60.040").verdict, Verdict::in);
  EXPECT_EQ(uncertain("60.055").verdict, Verdict::in);
  EXPECT_EQ(uncertain("60.055000001").verdict, Verdict::doubtful);
  EXPECT_EQ(uncertain("60.065000001").verdict, Verdict::out);
}

TEST(FitUncertainty, OneSideWithoutLeavesNone) {
  Workpiece work = bearing();
  read_four(work, "60.036", "60.045", "60.000", "60.000");
  work.engine.readings[0].uncertainty = len("0.003");
  work.engine.readings[1].uncertainty = len("0.003");
  EXPECT_EQ(work.fitted().uncertainty, std::nullopt);
  EXPECT_EQ(work.fitted().probability, std::nullopt);
  EXPECT_EQ(work.fitted().verdict, Verdict::in);
}

// Tables of the normal distribution: 0.5 at the mean, 0.97725 two standard deviations above it.
TEST(Probability, OnALimitItIsHalf) {
  EXPECT_NEAR(*uncertain("60.035").probability, 0.5, 1e-6);
  EXPECT_NEAR(*uncertain("60.040").probability, 0.97725, 1e-5);  // u is 0.0025
}

TEST(Probability, IsTheLesserOfTheTwoExtremes) {
  Workpiece work = bearing();
  read_four(work, "60.035", "60.047", "60.000", "60.000");
  for (Reading& reading : work.engine.readings) reading.uncertainty = len("0.002");
  EXPECT_NEAR(*work.fitted().probability, 0.5, 1e-6);
  work.spec.fits.front().judge = JudgeBy::mean;
  EXPECT_NEAR(*work.fitted().probability, 0.9999, 1e-4);  // mean 0.041
}

TEST(Probability, IsNoneBeforeTheFitIsCompleteOrWithoutLimits) {
  Workpiece work = bearing();
  work.read("bearing/1/front", "60.045").uncertainty = len("0.003");
  work.read("journal/1/front", "60.000").uncertainty = len("0.004");
  EXPECT_EQ(work.fitted().uncertainty, len("0.005"));
  EXPECT_EQ(work.fitted().probability, std::nullopt);
  work.read("bearing/1/rear", "60.045").uncertainty = len("0.003");
  work.read("journal/1/rear", "60.000").uncertainty = len("0.004");
  EXPECT_NE(work.fitted().probability, std::nullopt);
  work.spec.fits.front().limits = {};
  EXPECT_EQ(work.fitted().probability, std::nullopt);
}

}  // namespace
}  // namespace tenth
