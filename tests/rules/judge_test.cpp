#include "rules/judge.hpp"

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;
using testing::Workpiece;

TEST(Zone, LimitsAreInclusive) {
  EXPECT_EQ(zone(len("83.035"), len("83.035"), Side::upper, {}), Verdict::in);
  EXPECT_EQ(zone(len("83.035000001"), len("83.035"), Side::upper, {}), Verdict::out);
  EXPECT_EQ(zone(len("83.000"), len("83.000"), Side::lower, {}), Verdict::in);
  EXPECT_EQ(zone(len("82.999999999"), len("83.000"), Side::lower, {}), Verdict::out);
}

TEST(Zone, BetweenInAndOutLiesTheUncertainty) {
  const auto u = len("0.002");
  EXPECT_EQ(zone(len("83.033"), len("83.035"), Side::upper, u), Verdict::in);
  EXPECT_EQ(zone(len("83.033000001"), len("83.035"), Side::upper, u), Verdict::doubtful);
  EXPECT_EQ(zone(len("83.037"), len("83.035"), Side::upper, u), Verdict::doubtful);
  EXPECT_EQ(zone(len("83.037000001"), len("83.035"), Side::upper, u), Verdict::out);
  EXPECT_EQ(zone(len("83.002"), len("83.000"), Side::lower, u), Verdict::in);
  EXPECT_EQ(zone(len("83.001999999"), len("83.000"), Side::lower, u), Verdict::doubtful);
  EXPECT_EQ(zone(len("82.998"), len("83.000"), Side::lower, u), Verdict::doubtful);
  EXPECT_EQ(zone(len("82.997999999"), len("83.000"), Side::lower, u), Verdict::out);
}

TEST(Worst, IsOutThenIncompleteThenDoubtfulThenIn) {
  EXPECT_EQ(worst(Verdict::out, Verdict::incomplete), Verdict::out);
  EXPECT_EQ(worst(Verdict::doubtful, Verdict::incomplete), Verdict::incomplete);
  EXPECT_EQ(worst(Verdict::in, Verdict::doubtful), Verdict::doubtful);
  EXPECT_EQ(worst(Verdict::in, std::nullopt), Verdict::in);
  EXPECT_EQ(worst(std::nullopt, Verdict::out), Verdict::out);
  EXPECT_EQ(worst(std::nullopt, std::nullopt), std::nullopt);
}

/// A bore of two levels and two axes, 83.000 to 83.035 mm.
Workpiece bore() {
  Workpiece work;
  Feature& feature = work.feature("bore", Kind::inside, limits("83.000", "83.035"));
  feature.levels = {"top", "low"};
  feature.axes = {"x", "y"};
  return work;
}

void read_four(Workpiece& work, const char* top_x, const char* top_y, const char* low_x, const char* low_y) {
  work.read("bore/1/top/x", top_x);
  work.read("bore/1/top/y", top_y);
  work.read("bore/1/low/x", low_x);
  work.read("bore/1/low/y", low_y);
}

TEST(Feature, FiguresOfTheCountingReadings) {
  Workpiece work = bore();
  read_four(work, "83.010", "83.011", "83.020", "83.014");
  const FeatureResult result = work.judged("bore");
  EXPECT_EQ(result.mean, len("83.01375"));
  EXPECT_EQ(result.min, len("83.010"));
  EXPECT_EQ(result.max, len("83.020"));
  EXPECT_EQ(result.readings, 4);
  EXPECT_EQ(result.missing, 0);
  EXPECT_EQ(result.stage, "as found");
  EXPECT_EQ(result.label, "1");
  EXPECT_EQ(result.uncertainty, std::nullopt);
  EXPECT_EQ(result.verdict, Verdict::in);
  EXPECT_TRUE(result.reasons.empty());
}

TEST(Feature, TheSmallestAndTheLargestAreHeldAgainstTheLimits) {
  const std::pair<const char*, Verdict> edges[] = {
      {"83.000", Verdict::in}, {"82.999999999", Verdict::out}, {"83.035", Verdict::in}, {"83.035000001", Verdict::out}};
  for (const auto& [edge, expected] : edges) {
    Workpiece work = bore();
    read_four(work, "83.020", edge, "83.020", "83.020");
    EXPECT_EQ(work.judged("bore").verdict, expected) << edge;
  }
}

TEST(Feature, AReasonNamesFigureLimitAndSide) {
  Workpiece work = bore();
  read_four(work, "83.020", "82.990", "83.020", "83.040");
  const FeatureResult result = work.judged("bore");
  ASSERT_EQ(result.reasons.size(), 2U);
  EXPECT_EQ(result.reasons[0].what, "size");
  EXPECT_EQ(result.reasons[0].value, len("82.990"));
  EXPECT_EQ(result.reasons[0].limit, len("83.000"));
  EXPECT_EQ(result.reasons[0].side, Side::lower);
  EXPECT_EQ(result.reasons[0].verdict, Verdict::out);
  EXPECT_EQ(result.reasons[1].value, len("83.040"));
  EXPECT_EQ(result.reasons[1].side, Side::upper);
}

TEST(Feature, ReasonsStandWorstFirst) {
  Workpiece work = bore();
  work.spec.features.front().out_of_round = len("0.005");
  read_four(work, "83.020", "83.034", "83.020", "83.020");
  for (Reading& reading : work.engine.readings) {
    reading.uncertainty = len("0.002");
    reading.repeatability = len("0.001");
  }
  const FeatureResult result = work.judged("bore");
  ASSERT_EQ(result.reasons.size(), 2U);
  EXPECT_EQ(result.reasons[0].what, "out_of_round");
  EXPECT_EQ(result.reasons[0].verdict, Verdict::out);
  EXPECT_EQ(result.reasons[1].what, "size");
  EXPECT_EQ(result.reasons[1].verdict, Verdict::doubtful);
}

TEST(Feature, FromPartOfTheReadingsItIsNeverIn) {
  Workpiece work = bore();
  EXPECT_EQ(work.judged("bore").verdict, Verdict::incomplete);
  work.read("bore/1/top/x", "83.010");
  const FeatureResult result = work.judged("bore");
  EXPECT_EQ(result.verdict, Verdict::incomplete);
  EXPECT_EQ(result.readings, 1);
  EXPECT_EQ(result.missing, 3);
}

TEST(Feature, OneReadingPastALimitIsOutAtOnce) {
  Workpiece work = bore();
  work.read("bore/1/low/y", "83.036");
  EXPECT_EQ(work.judged("bore").verdict, Verdict::out);
}

TEST(Feature, ADoubtfulReadingWaitsForTheRest) {
  Workpiece work = bore();
  work.read("bore/1/low/y", "83.036").uncertainty = len("0.002");
  EXPECT_EQ(work.judged("bore").verdict, Verdict::incomplete);
}

TEST(Feature, TheLargestUncertaintyOfTheGaugesUsedCounts) {
  Workpiece work = bore();
  read_four(work, "83.020", "83.032", "83.020", "83.020");
  for (Reading& reading : work.engine.readings) reading.uncertainty = len("0.002");
  work.engine.readings[2].uncertainty = len("0.004");
  EXPECT_EQ(work.judged("bore").uncertainty, len("0.004"));
  EXPECT_EQ(work.judged("bore").verdict, Verdict::doubtful);
  work.engine.readings[2].uncertainty.reset();
  EXPECT_EQ(work.judged("bore").uncertainty, std::nullopt);
  EXPECT_EQ(work.judged("bore").verdict, Verdict::in);
}

TEST(Feature, OneLimitAloneIsEnough) {
  Workpiece work;
  work.feature("housing", Kind::inside, limits("", "60.019"));
  work.read("housing/1", "1");
  EXPECT_EQ(work.judged("housing").verdict, Verdict::in);
  work.read("housing/1", "60.020");
  EXPECT_EQ(work.judged("housing").verdict, Verdict::out);
}

TEST(Feature, WithoutAnyLimitThereIsNoVerdict) {
  Workpiece work;
  work.feature("length", Kind::depth, {});
  EXPECT_EQ(work.judged("length").verdict, std::nullopt);
  work.read("length/1", "144");
  EXPECT_EQ(work.judged("length").verdict, std::nullopt);
  EXPECT_EQ(work.judged("length").mean, len("144"));
}

TEST(Feature, EachIndexStandsForItself) {
  Workpiece work;
  work.feature("pin", Kind::outside, limits("51.98", "52.00"), 2).labels = {"front", "rear"};
  work.read("pin/1", "51.99");
  work.read("pin/2", "51.97");
  EXPECT_EQ(work.judged("pin", 1).verdict, Verdict::in);
  EXPECT_EQ(work.judged("pin", 2).verdict, Verdict::out);
  EXPECT_EQ(work.judged("pin", 2).label, "rear");
}

TEST(Feature, ItsLatestStageIsJudged) {
  Workpiece work;
  work.feature("pin", Kind::outside, limits("51.98", "52.00"));
  work.read("pin/1", "51.97");
  work.begin_stage("pin", "ground", false);
  EXPECT_EQ(work.judged("pin").verdict, Verdict::incomplete);
  EXPECT_EQ(work.judged("pin").stage, "ground");
  EXPECT_FALSE(work.judged("pin").carried);
  work.begin_stage("pin", "polished", true);
  work.read("pin/1", "51.99");
  EXPECT_EQ(work.judged("pin").verdict, Verdict::in);
}

TEST(Feature, CarriedReadingsAreMarked) {
  Workpiece work;
  work.feature("pin", Kind::outside, limits("51.98", "52.00"));
  work.read("pin/1", "51.99");
  work.begin_stage("pin", "washed", true);
  EXPECT_TRUE(work.judged("pin").carried);
  EXPECT_EQ(work.judged("pin").verdict, Verdict::in);
}

Report report_with(Answer answer) {
  Workpiece work;
  work.feature("oil_feed_clear", Kind::check, {});
  work.engine.answers[{"oil_feed_clear", 1}] = {answer, "blown through", 7, "", {}};
  return judge(work.done());
}

TEST(Check, YesIsInNoIsOutLaterIsIncomplete) {
  EXPECT_EQ(report_with(Answer::yes).checks.front().verdict, Verdict::in);
  EXPECT_EQ(report_with(Answer::no).checks.front().verdict, Verdict::out);
  EXPECT_EQ(report_with(Answer::later).checks.front().verdict, Verdict::incomplete);
  EXPECT_EQ(report_with(Answer::later).checks.front().note, "blown through");
}

TEST(Check, ThatDoesNotApplyLeavesNothingToJudge) {
  const Report report = report_with(Answer::not_applicable);
  EXPECT_EQ(report.checks.front().answer, Answer::not_applicable);
  EXPECT_EQ(report.checks.front().verdict, std::nullopt);
  EXPECT_EQ(report.verdict, std::nullopt);
}

TEST(Check, AnswersHaveTheirWords) {
  for (const Answer answer : {Answer::yes, Answer::no, Answer::later, Answer::not_applicable})
    EXPECT_EQ(answer_from(name(answer)), answer);
  EXPECT_EQ(answer_from("maybe"), std::nullopt);
}

TEST(Check, UnansweredIsIncomplete) {
  Workpiece work;
  work.feature("oil_feed_clear", Kind::check, {});
  const Report report = judge(work.done());
  EXPECT_TRUE(report.features.empty());
  ASSERT_EQ(report.checks.size(), 1U);
  EXPECT_EQ(report.checks.front().answer, std::nullopt);
  EXPECT_EQ(report.checks.front().verdict, Verdict::incomplete);
  EXPECT_EQ(report.verdict, Verdict::incomplete);
}

TEST(Report, HoldsEverythingInTheOrderOfTheSpec) {
  Workpiece work;
  work.feature("bore", Kind::inside, limits("83.000", "83.035"), 2);
  work.feature("piston", Kind::outside, limits("82.950", "82.970"), 2);
  work.fit("piston_clearance", "bore", "piston", limits("0.045", "0.065"));
  work.spec.spreads.push_back({"piston", len("0.005"), SpreadBy::means});
  const Report report = judge(work.done());
  ASSERT_EQ(report.features.size(), 4U);
  EXPECT_EQ(report.features[1].feature, "bore");
  EXPECT_EQ(report.features[1].index, 2);
  EXPECT_EQ(report.features[2].feature, "piston");
  ASSERT_EQ(report.fits.size(), 2U);
  EXPECT_EQ(report.fits[1].index, 2);
  EXPECT_EQ(report.spreads.size(), 1U);
}

TEST(Report, IsTheWorstOfAll) {
  Workpiece work;
  work.feature("bore", Kind::inside, limits("83.000", "83.035"));
  work.feature("piston", Kind::outside, limits("82.950", "82.970"));
  work.fit("piston_clearance", "bore", "piston", limits("0.045", "0.065"));
  EXPECT_EQ(judge(work.done()).verdict, Verdict::incomplete);
  work.read("bore/1", "83.020");
  work.read("piston/1", "82.965");
  EXPECT_EQ(judge(work.done()).verdict, Verdict::in);
  work.read("piston/1", "82.954");  // each part within its limits, the two of them not
  EXPECT_EQ(judge(work.done()).verdict, Verdict::out);
}

TEST(Report, OfASpecWithoutLimitsHasNoVerdict) {
  Workpiece work;
  work.feature("length", Kind::depth, {});
  EXPECT_EQ(judge(work.done()).verdict, std::nullopt);
}

TEST(Report, NamesTheEngineAndTheSpecEntry) {
  Workpiece work;
  work.engine.name = "six";
  work.engine.spec_seq = 4;
  EXPECT_EQ(judge(work.done()).engine, "six");
  EXPECT_EQ(judge(work.done()).spec_seq, 4);
}

}  // namespace
}  // namespace tenth
