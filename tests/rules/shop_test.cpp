#include "rules/alerts.hpp"
#include "rules/returned.hpp"
#include "rules/ring.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;
using testing::Workpiece;

/// Two bores measured at two places, which want their plates on.
Workpiece plated() {
  Workpiece work;
  Feature& bore = work.feature("bore", Kind::inside, limits("83.000", "83.035"), 2);
  bore.axes = {"x", "y"};
  bore.setup = "torque plates fitted";
  work.read("bore/1//x", "83.010");
  work.read("bore/1//y", "83.012");
  return work;
}

TEST(Setup, WithoutItNothingIsIn) {
  Workpiece work = plated();
  const FeatureResult result = work.judged("bore");
  EXPECT_EQ(result.verdict, Verdict::incomplete);
  ASSERT_EQ(result.reasons.size(), 1u);
  EXPECT_EQ(result.reasons.front().what, "setup");
  EXPECT_FALSE(result.reasons.front().limit);
}

TEST(Setup, OnceSaidTheResultCounts) {
  Workpiece work = plated();
  work.engine.set_up["bore"].insert(0);
  EXPECT_EQ(work.judged("bore").verdict, Verdict::in);
}

TEST(Setup, ALaterStageAsksForItAgain) {
  Workpiece work = plated();
  work.engine.set_up["bore"].insert(0);
  work.begin_stage("bore", "honed", true);
  EXPECT_EQ(work.judged("bore").verdict, Verdict::incomplete);
  EXPECT_TRUE(lacks_setup(work.judged("bore")));
  work.engine.set_up["bore"].insert(work.engine.stages["bore"].back().entry);
  EXPECT_EQ(work.judged("bore").verdict, Verdict::in);
  EXPECT_FALSE(lacks_setup(work.judged("bore")));
  work.engine.stages.clear();
  EXPECT_EQ(work.judged("bore").verdict, Verdict::in) << "it was said for the first stage too";
}

TEST(Setup, WhatIsOutIsOutWithoutIt) {
  Workpiece work = plated();
  work.read("bore/1//y", "83.040");
  EXPECT_EQ(work.judged("bore").verdict, Verdict::out);
}

TEST(Setup, WhereNothingIsJudgedNothingIsAskedFor) {
  Workpiece work;
  work.feature("bore", Kind::inside, {}).setup = "torque plates fitted";
  work.read("bore/1", "83.010");
  EXPECT_FALSE(work.judged("bore").verdict);
}

TEST(Setup, AFitWaitsForBothItsSides) {
  Workpiece work;
  work.feature("bore", Kind::inside, {}).setup = "plates";
  work.feature("piston", Kind::outside, {});
  work.fit("clearance", "bore", "piston", limits("0.040", "0.070"));
  work.read("bore/1", "83.010");
  work.read("piston/1", "82.955");
  EXPECT_EQ(work.fitted().verdict, Verdict::incomplete);
  work.engine.set_up["bore"].insert(0);
  EXPECT_EQ(work.fitted().verdict, Verdict::in);
}

TEST(Setup, ASpreadWaitsToo) {
  Workpiece work;
  work.feature("journal", Kind::outside, {}, 2).setup = "caps off";
  work.spec.spreads.push_back({"journal", len("0.005"), SpreadBy::means});
  work.read("journal/1", "60.000");
  work.read("journal/2", "60.002");
  EXPECT_EQ(work.spread().verdict, Verdict::incomplete);
  work.engine.set_up["journal"].insert(0);
  EXPECT_EQ(work.spread().verdict, Verdict::in);
}

/// Two journals that were asked for at 59.740 within 0.005; `received` after the two readings as found.
Workpiece ground() {
  Workpiece work;
  work.feature("journal", Kind::outside, limits("59.700", "60.000"), 2);
  work.read("journal/1", "59.990");
  work.read("journal/2", "59.988");
  Sent sent{3, "", "the crank grinder", "grind", AskedSize{len("59.740"), len("0.005")}, 4};
  work.engine.sent["journal"] = sent;
  work.replace("lifter", 1);  // seqs 3 and 4 are taken
  work.replace("lifter", 1);
  return work;
}

std::vector<Returned> back(Workpiece& work) {
  return returned(work.done(), work.counts());
}

TEST(Returned, WhatWasReadBeforeItCameBackSaysNothing) {
  Workpiece work = ground();
  const auto parts = back(work);
  ASSERT_EQ(parts.size(), 2u);
  EXPECT_EQ(parts[0].verdict, Verdict::incomplete);
  EXPECT_FALSE(parts[0].min);
}

TEST(Returned, IsHeldAgainstTheSizeAskedFor) {
  Workpiece work = ground();
  work.read("journal/1", "59.745");
  work.read("journal/2", "59.7451");
  const auto parts = back(work);
  EXPECT_EQ(parts[0].verdict, Verdict::in);  // limits are inclusive
  EXPECT_EQ(parts[1].verdict, Verdict::out);
  EXPECT_EQ(parts[1].label, "2");
  EXPECT_EQ(parts[1].to, "the crank grinder");
  EXPECT_EQ(parts[1].max, len("59.7451"));
}

TEST(Returned, KnowsTheUncertaintyOfTheGauge) {
  Workpiece work = ground();
  work.read("journal/1", "59.7451").uncertainty = len("0.001");
  EXPECT_EQ(back(work)[0].verdict, Verdict::doubtful);
}

TEST(Returned, NothingIsHeldWhileItIsAwayOrWithoutASize) {
  Workpiece work = ground();
  work.engine.sent["journal"].received.reset();
  EXPECT_TRUE(back(work).empty());
  EXPECT_TRUE(is_away(work.engine, "journal"));
  work.engine.sent["journal"].received = 4;
  work.engine.sent["journal"].size.reset();
  EXPECT_TRUE(back(work).empty());
  EXPECT_FALSE(is_away(work.engine, "journal"));
}

/// Rings with 0.30 to 0.45 in two bores that differ by 0.0113 mm.
Workpiece rings() {
  Workpiece work;
  work.feature("bore", Kind::inside, {}, 2);
  work.feature("gap", Kind::gap, limits("0.30", "0.45"), 2).fitted_in = "bore";
  work.read("bore/1", "83.0000");
  work.read("bore/2", "83.0113");
  work.read("gap/1", "0.4200");
  return work;
}

TEST(Ring, ItsGapGrowsWithPiTimesItsBore) {
  Workpiece work = rings();
  const auto moved = ring_in_bore(work.done(), *work.spec.find("gap"), 1, 2);
  ASSERT_TRUE(moved) << moved.error().message;
  EXPECT_EQ(moved->now.mean, len("0.4200"));
  EXPECT_EQ(moved->would.mean, len("0.4555"));  // 0.42 + 355/113 x 0.0113 = 0.42 + 0.0355
  EXPECT_EQ(moved->now.verdict, Verdict::in);
  EXPECT_EQ(moved->would.verdict, Verdict::out);
}

/// Of two bores of one size the first was warm when it was read: what it would measure at 20 °C is no gap to be filed.
TEST(Ring, BoresAreHeldAgainstEachOtherAtOneTemperature) {
  Workpiece work = rings();
  work.engine.readings[0].size_20c = len("82.9900");
  const auto one_side = ring_in_bore(work.done(), *work.spec.find("gap"), 1, 2);
  ASSERT_TRUE(one_side) << one_side.error().message;
  EXPECT_EQ(one_side->would.mean, len("0.4555")) << "as read, both";
  work.engine.readings[1].size_20c = len("82.9900");
  EXPECT_EQ(ring_in_bore(work.done(), *work.spec.find("gap"), 1, 2)->would.mean, len("0.4200"));
}

TEST(Ring, PiIsRightToSevenDigits) {
  // pi = 3.141592653589793 (any table): 355/113 times 1 m is off by less than 0.3 um.
  EXPECT_LT((gap_growth(len("1000")) - len("3141.592653589")).magnitude(), len("0.0003"));
  EXPECT_EQ(gap_growth(len("-0.0113")), len("-0.0355"));
}

TEST(Ring, AnUnmeasuredBoreOrAnUnknownOneIsRefused) {
  Workpiece work = rings();
  work.engine.readings.erase(work.engine.readings.begin() + 1);
  EXPECT_EQ(ring_in_bore(work.done(), *work.spec.find("gap"), 1, 2).error().code, "incomplete");
  work.spec.features[1].fitted_in.clear();
  EXPECT_EQ(ring_in_bore(work.done(), *work.spec.find("gap"), 1, 2).error().code, "no_bore");
}

TEST(Ring, TheAimIsTheMiddleElseTheOneLimit) {
  Workpiece work = rings();
  Feature gap = *work.spec.find("gap");
  EXPECT_EQ(gap_aim(gap), len("0.375"));
  gap.limits.upper.reset();
  EXPECT_EQ(gap_aim(gap), len("0.30"));
}

/// A claim of 59.990 at a journal that the shop reads itself.
Workpiece claimed() {
  Workpiece work;
  work.feature("journal", Kind::outside, limits("59.980", "60.000"));
  Reading& claim = work.read("journal/1", "59.990");
  claim.state = State::claimed;
  claim.claimed_by = "the crank grinder";
  return work;
}

std::vector<Cause> claims(Workpiece& work) {
  auto all = causes(work.done(), judge(work.done()));
  std::erase_if(all, [](const Cause& cause) { return cause.what != AlertWhat::claim; });
  return all;
}

TEST(Claim, IsNeverJudged) {
  Workpiece work = claimed();
  EXPECT_EQ(work.judged("journal").readings, 0);
  EXPECT_TRUE(claims(work).empty());
}

TEST(Claim, AnOwnReadingThatDiffersRaisesAnAlert) {
  Workpiece work = claimed();
  work.read("journal/1", "59.984");
  const auto found = claims(work);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(
      found[0].text,
      "journal: the crank grinder claims 59.990 mm, measured here 59.984 mm, 0.006 mm apart: measure again, and ask");
  EXPECT_EQ(found[0].severity, Severity::look);
  EXPECT_EQ(found[0].seqs, (std::vector<std::int64_t>{1, 2}));
}

TEST(Claim, WithinTheUncertaintyItIsBelieved) {
  Workpiece work = claimed();
  work.read("journal/1", "59.984").uncertainty = len("0.006");
  EXPECT_TRUE(claims(work).empty());
  work.read("journal/1", "59.983").uncertainty = len("0.006");
  EXPECT_EQ(claims(work).size(), 1u);
}

TEST(Claim, OfAnotherStageOrAnotherPartSaysNothing) {
  Workpiece work = claimed();
  work.begin_stage("journal", "ground", false);
  work.read("journal/1", "59.984");
  EXPECT_TRUE(claims(work).empty());
  Workpiece other = claimed();
  other.replace("journal", 1);
  other.read("journal/1", "59.984");
  EXPECT_TRUE(claims(other).empty());
}

TEST(Unconfirmed, CountsWhatRestsOnASettingWithoutAGoodCheck) {
  Workpiece work;
  work.feature("bore", Kind::inside, {}, 3);
  for (const char* place : {"bore/1", "bore/2", "bore/3"}) {
    Reading& reading = work.read(place, "83.0");
    reading.gauge = "dial";
    reading.setting = 9;
  }
  work.engine.readings[0].closed = true;
  work.engine.readings[1].state = State::voided;
  const Engine& engine = work.done();
  const auto open = unconfirmed(engine, counting(engine));
  EXPECT_EQ(open, (std::map<std::string, std::vector<std::int64_t>>{{"dial", {engine.readings[2].seq}}}));
  work.engine.readings[2].setting.reset();
  EXPECT_TRUE(unconfirmed(engine, counting(engine)).empty());
}

}  // namespace
}  // namespace tenth
