#include "rules/form.hpp"

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;
using testing::Workpiece;

/// A bore of three levels and two axes, asked for by these definitions and with these limits of form.
Workpiece bore(OutOfRoundBy out_of_round_by, TaperBy taper_by, std::string_view out_of_round = {},
               std::string_view taper = {}) {
  Workpiece work;
  Feature& feature = work.feature("bore", Kind::inside, {});
  feature.levels = {"top", "mid", "low"};
  feature.axes = {"x", "y"};
  feature.out_of_round_by = out_of_round_by;
  feature.taper_by = taper_by;
  if (!out_of_round.empty()) feature.out_of_round = len(out_of_round);
  if (!taper.empty()) feature.taper = len(taper);
  return work;
}

/// Six readings of our own: worked example X16.
void read_six(Workpiece& work) {
  work.read("bore/1/top/x", "87.262");
  work.read("bore/1/top/y", "87.231");
  work.read("bore/1/mid/x", "87.248");
  work.read("bore/1/mid/y", "87.229");
  work.read("bore/1/low/x", "87.226");
  work.read("bore/1/low/y", "87.221");
}

std::optional<Length> six_out_of_round(OutOfRoundBy by) {
  Workpiece work = bore(by, TaperBy::along_axis);
  read_six(work);
  return work.judged("bore").out_of_round;
}

std::optional<Length> six_taper(TaperBy by) {
  Workpiece work = bore(OutOfRoundBy::same_level, by);
  read_six(work);
  return work.judged("bore").taper;
}

TEST(OutOfRound, SixReadingsTwoDefinitions) {
  EXPECT_EQ(six_out_of_round(OutOfRoundBy::same_level), len("0.031"));
  EXPECT_EQ(six_out_of_round(OutOfRoundBy::across_levels), len("0.041"));
}

TEST(Taper, SixReadingsFourDefinitions) {
  EXPECT_EQ(six_taper(TaperBy::along_axis), len("0.036"));
  EXPECT_EQ(six_taper(TaperBy::ends), len("0.036"));
  EXPECT_EQ(six_taper(TaperBy::pairs), len("0.036"));
  EXPECT_EQ(six_taper(TaperBy::level_means), len("0.023"));
}

TEST(Form, TheResultNamesTheDefinition) {
  const FeatureResult result = bore(OutOfRoundBy::across_levels, TaperBy::pairs).judged("bore");
  EXPECT_EQ(result.out_of_round_by, OutOfRoundBy::across_levels);
  EXPECT_EQ(result.taper_by, TaperBy::pairs);
}

TEST(Taper, AWaistShowsAlongTheAxisButNotAtTheEnds) {
  for (const auto& [by, expected] : {std::pair(TaperBy::along_axis, "0.020"), std::pair(TaperBy::ends, "0.002"),
                                     std::pair(TaperBy::pairs, "0.002"), std::pair(TaperBy::level_means, "0.020")}) {
    Workpiece work = bore(OutOfRoundBy::same_level, by);
    for (const char* axis : {"x", "y"}) {
      work.read(std::string("bore/1/top/") + axis, "83.022");
      work.read(std::string("bore/1/mid/") + axis, "83.002");
      work.read(std::string("bore/1/low/") + axis, "83.020");
    }
    EXPECT_EQ(work.judged("bore").taper, len(expected)) << name(by);
  }
}

TEST(Taper, EndsTakesTheWorstAxisWhicheverWayItRuns) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::ends);
  work.read("bore/1/top/x", "83.010");
  work.read("bore/1/low/x", "83.014");
  work.read("bore/1/top/y", "83.010");
  work.read("bore/1/low/y", "83.003");
  EXPECT_EQ(work.judged("bore").taper, len("0.007"));
}

TEST(Taper, PairsComparesTheLargestWhereverTheyLie) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::pairs);
  work.read("bore/1/top/x", "83.010");
  work.read("bore/1/top/y", "83.020");
  work.read("bore/1/low/x", "83.018");
  work.read("bore/1/low/y", "83.001");
  EXPECT_EQ(work.judged("bore").taper, len("0.002"));
}

TEST(Taper, MeansOfLevelsAreRoundedHalfAwayFromZero) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::level_means);
  work.read("bore/1/top/x", "83.000000001");
  work.read("bore/1/top/y", "83.000000002");  // mean …1.5 pm, rounded to …2
  work.read("bore/1/low/x", "83.000000001");
  work.read("bore/1/low/y", "83.000000001");
  EXPECT_EQ(work.judged("bore").taper, Length::from_pm(1));
}

TEST(OutOfRound, ThreeAxesTakeTheWorstTwo) {
  for (const auto& [by, expected] :
       {std::pair(OutOfRoundBy::same_level, "0.005"), std::pair(OutOfRoundBy::across_levels, "0.009")}) {
    Workpiece work = bore(by, TaperBy::along_axis);
    work.spec.features.front().axes = {"x", "y", "z"};
    work.read("bore/1/top/x", "83.010");
    work.read("bore/1/top/y", "83.012");
    work.read("bore/1/top/z", "83.015");
    work.read("bore/1/low/x", "83.006");  // the largest of z less the smallest of x
    work.read("bore/1/low/z", "83.006");
    EXPECT_EQ(work.judged("bore").out_of_round, len(expected)) << name(by);
  }
}

TEST(OutOfRound, AcrossLevelsNeverComparesAnAxisWithItself) {
  Workpiece work = bore(OutOfRoundBy::across_levels, TaperBy::along_axis);
  work.read("bore/1/top/x", "83.030");
  work.read("bore/1/low/x", "83.000");
  EXPECT_FALSE(work.judged("bore").out_of_round);
  work.read("bore/1/mid/y", "83.020");
  EXPECT_EQ(work.judged("bore").out_of_round, len("0.020"));
}

TEST(Form, LevelsAndAxesThatCannotGiveItGiveNone) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::along_axis, "0.001", "0.001");
  work.spec.features.front().levels = {"only"};
  work.spec.features.front().axes.clear();
  work.read("bore/1/only/", "83.000");
  const FeatureResult result = work.judged("bore");
  EXPECT_FALSE(result.out_of_round);
  EXPECT_FALSE(result.taper);
  EXPECT_EQ(result.missing, 0);
  EXPECT_FALSE(result.verdict);
}

TEST(Form, LevelsWithoutAxesGiveTaperOnly) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::along_axis);
  work.spec.features.front().axes.clear();
  work.read("bore/1/top/", "83.010");
  work.read("bore/1/low/", "83.004");
  EXPECT_EQ(work.judged("bore").taper, len("0.006"));
  EXPECT_FALSE(work.judged("bore").out_of_round);
}

TEST(Form, AxesWithoutLevelsGiveOutOfRoundOnly) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::along_axis);
  work.spec.features.front().levels.clear();
  work.read("bore/1//x", "83.010");
  work.read("bore/1//y", "83.004");
  EXPECT_EQ(work.judged("bore").out_of_round, len("0.006"));
  EXPECT_FALSE(work.judged("bore").taper);
}

TEST(Form, OfTooFewReadingsIsNone) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::along_axis, "0.010", "0.010");
  work.read("bore/1/top/x", "83.010");
  work.read("bore/1/mid/y", "83.050");
  const FeatureResult result = work.judged("bore");
  EXPECT_FALSE(result.out_of_round);
  EXPECT_FALSE(result.taper);
  EXPECT_EQ(result.verdict, Verdict::incomplete);
}

/// The verdict after the first `count` of the six readings, the taper limit being 0.010 mm.
std::optional<Verdict> early_taper(TaperBy by, std::size_t count) {
  Workpiece work = bore(OutOfRoundBy::same_level, by, "", "0.010");
  Workpiece whole = work;
  read_six(whole);
  for (const Reading& reading : whole.engine.readings)
    if (work.engine.readings.size() < count) work.engine.readings.push_back(reading);
  return work.judged("bore").verdict;
}

TEST(EarlyOut, ADifferenceAlongAnAxisCannotShrinkAgain) {
  EXPECT_EQ(early_taper(TaperBy::along_axis, 2), Verdict::incomplete);
  EXPECT_EQ(early_taper(TaperBy::along_axis, 3), Verdict::out);  // x: 87.262 and 87.248
  EXPECT_EQ(early_taper(TaperBy::ends, 4), Verdict::incomplete);
  EXPECT_EQ(early_taper(TaperBy::ends, 5), Verdict::out);  // x: 87.262 and 87.226
}

TEST(EarlyOut, LargestReadingsAndMeansWaitForAllOfThem) {
  EXPECT_EQ(early_taper(TaperBy::pairs, 5), Verdict::incomplete);
  EXPECT_EQ(early_taper(TaperBy::pairs, 6), Verdict::out);
  EXPECT_EQ(early_taper(TaperBy::level_means, 5), Verdict::incomplete);
  EXPECT_EQ(early_taper(TaperBy::level_means, 6), Verdict::out);
}

TEST(EarlyOut, AReadingToComeHealsPairs) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::pairs, "", "0.010");
  for (const char* place : {"bore/1/top/x", "bore/1/top/y", "bore/1/mid/x", "bore/1/mid/y"}) work.read(place, "83.020");
  work.read("bore/1/low/x", "83.000");
  EXPECT_EQ(work.judged("bore").verdict, Verdict::incomplete);
  work.read("bore/1/low/y", "83.020");
  EXPECT_EQ(work.judged("bore").verdict, Verdict::in);
}

TEST(EarlyOut, EndsAreJudgedOnceTheyAreThereThoughTheMiddleIsMissing) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::pairs, "", "0.010");
  for (const char* axis : {"x", "y"}) {
    work.read(std::string("bore/1/top/") + axis, "83.020");
    work.read(std::string("bore/1/low/") + axis, "83.000");
  }
  EXPECT_EQ(work.judged("bore").verdict, Verdict::out);
}

TEST(EarlyOut, EndsThatAreInLeaveTheWholeIncompleteWhileTheMiddleIsMissing) {
  Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::ends, "", "0.010");
  for (const char* axis : {"x", "y"})
    for (const char* level : {"top", "low"}) work.read(std::string("bore/1/") + level + "/" + axis, "83.020");
  EXPECT_EQ(work.judged("bore").verdict, Verdict::incomplete);
  EXPECT_TRUE(work.judged("bore").reasons.empty());
}

TEST(EarlyOut, ADifferenceAtOneLevelCannotShrinkAgain) {
  for (const OutOfRoundBy by : {OutOfRoundBy::same_level, OutOfRoundBy::across_levels}) {
    Workpiece work = bore(by, TaperBy::along_axis, "0.030");
    work.read("bore/1/top/x", "87.262");
    EXPECT_EQ(work.judged("bore").verdict, Verdict::incomplete);
    work.read("bore/1/top/y", "87.231");
    EXPECT_EQ(work.judged("bore").verdict, Verdict::out);
  }
}

TEST(FormLimit, IsInclusive) {
  for (const auto& [limit, expected] : {std::pair("0.031", Verdict::in), std::pair("0.030999999", Verdict::out)}) {
    Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::along_axis, limit);
    read_six(work);
    EXPECT_EQ(work.judged("bore").verdict, expected);
  }
}

TEST(FormUncertainty, IsRootTwoOfTheRepeatabilityRoundedUp) {
  // 0.001 mm x root 2 = 1 414 213.56… pm, so U is 0.001414214 mm.
  for (const auto& [limit, expected] :
       {std::pair("0.029585785", Verdict::out), std::pair("0.029585786", Verdict::doubtful),
        std::pair("0.032414213", Verdict::doubtful), std::pair("0.032414214", Verdict::in)}) {
    Workpiece work = bore(OutOfRoundBy::same_level, TaperBy::along_axis, limit);
    read_six(work);
    for (Reading& reading : work.engine.readings) {
      reading.uncertainty = len("0.010");
      reading.repeatability = len("0.001");
    }
    EXPECT_EQ(work.judged("bore").verdict, expected) << limit;
  }
}

}  // namespace
}  // namespace tenth
