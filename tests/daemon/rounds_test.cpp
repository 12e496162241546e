#include <gtest/gtest.h>

#include "rules/place.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Rounds : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("any", Json::object());
    bench.add_gauge("mic", {{"measures", "outside"}});
  }
  Result<Json> round(Json params) { return bench.act(round_begin, params); }
  std::string here(const std::optional<std::string>& gauge = std::nullopt) { return bench.standing(gauge); }
  Workbench bench;
};

TEST_F(Rounds, OnlyAKeptReadingMovesOn) {
  ASSERT_TRUE(round({{"features", {"bore"}}}));
  EXPECT_EQ(here(), "bore/1/top/thrust");
  bench.press("any", "830.10");
  EXPECT_EQ(here(), "bore/1/top/thrust");
  bench.press("any", "83.010");
  EXPECT_EQ(here(), "bore/1/top/pin");
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"reading", "place"}));
}

TEST_F(Rounds, WalksEveryPlaceOnceAndThenHasNone) {
  ASSERT_TRUE(round({{"features", {"bore"}}}));
  for (int n = 0; n < 8; ++n) bench.press("any", "83.010");
  EXPECT_EQ(here(), "none");
  const auto more = bench.act(round_next, Json::object());
  ASSERT_FALSE(more);
  EXPECT_EQ(more.error().code, "round_done");
  ASSERT_TRUE(bench.act(round_back, Json::object()));
  EXPECT_EQ(here(), "bore/2/bottom/pin");
}

TEST_F(Rounds, SkipsWhatIsMeasuredUnlessAgain) {
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  bench.press("mic", "82.950");
  ASSERT_TRUE(round({{"features", {"piston"}}}));
  EXPECT_EQ(here(), "piston/2");
  ASSERT_TRUE(round({{"features", {"piston"}}, {"again", true}}));
  EXPECT_EQ(here(), "piston/1");
  bench.press("mic", "82.950");
  EXPECT_EQ(here(), "piston/2");
}

TEST_F(Rounds, AgainWalksEveryPlaceThoughAllAreMeasured) {
  for (const char* index : {"1", "2"}) {
    ASSERT_TRUE(bench.act(at, {{"words", {"piston", index}}}));
    bench.press("mic", "82.950");
  }
  ASSERT_TRUE(round({{"features", {"piston"}}, {"again", true}}));
  bench.press("mic", "82.950");
  EXPECT_EQ(here(), "piston/2");
  bench.press("mic", "82.950");
  EXPECT_EQ(here(), "none");
}

TEST_F(Rounds, ByIndexTakesAllOfOneAndFromBeginsLater) {
  ASSERT_TRUE(round({{"features", {"piston", "ring_gap"}}, {"by", "index"}}));
  bench.press("mic", "82.950");
  EXPECT_EQ(here(), "ring_gap/1");
  ASSERT_TRUE(round({{"features", {"piston"}}, {"from", "2"}, {"again", true}}));
  EXPECT_EQ(here(), "piston/2");
  EXPECT_EQ(round({{"features", {"piston"}}, {"by", "level"}}).error().exit, Exit::words);
}

TEST_F(Rounds, NothingLeftIsSaid) {
  ASSERT_TRUE(round({{"features", {"piston"}}}));
  bench.press("mic", "82.950");
  bench.press("mic", "82.950");
  const auto refused = round({{"features", {"piston"}}});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "nothing_left");
}

TEST_F(Rounds, APlaceWantsAllItsPresses) {
  ASSERT_TRUE(round({{"features", {"main_journal"}}}));
  bench.press("mic", "59.990");
  EXPECT_EQ(here(), "main_journal/1");
  bench.press("mic", "59.991");
  EXPECT_EQ(here(), "main_journal/2");
}

TEST_F(Rounds, TwoGaugesWalkTwoRoundsAtOnce) {
  ASSERT_TRUE(round({{"features", {"bore"}}, {"gauge", "any"}}));
  ASSERT_TRUE(round({{"features", {"piston"}}, {"gauge", "mic"}}));
  bench.press("any", "83.010");
  bench.press("mic", "82.950");
  EXPECT_EQ(here("any"), "bore/1/top/pin");
  EXPECT_EQ(here("mic"), "piston/2");
  EXPECT_EQ(here(), "none");
  ASSERT_TRUE(bench.act(at_common, {{"gauge", "mic"}}));
  EXPECT_EQ(here("mic"), "none");
}

TEST_F(Rounds, NextLeavesAPlaceOutAndBackReturns) {
  ASSERT_TRUE(round({{"features", {"bore"}}}));
  ASSERT_TRUE(bench.act(round_next, Json::object()));
  EXPECT_EQ(here(), "bore/1/top/pin");
  ASSERT_TRUE(bench.act(round_back, Json::object()));
  EXPECT_EQ(here(), "bore/1/top/thrust");
  EXPECT_EQ(bench.act(round_back, Json::object()).error().code, "round_begin");
}

TEST_F(Rounds, NextGoesPastWhatIsMeasured) {
  ASSERT_TRUE(round({{"features", {"piston", "bore"}}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "2"}}, {"gauge", "mic"}}));
  bench.press("mic", "82.950");
  ASSERT_TRUE(bench.act(round_next, Json::object()));
  EXPECT_EQ(here(), "bore/1/top/thrust");
}

TEST_F(Rounds, EachPlaceOfARoundOverAllWantsItsOwnNewPresses) {
  for (int n = 0; n < 2; ++n) {
    ASSERT_TRUE(bench.act(at, {{"words", {"main_journal", "1"}}}));
    bench.press("mic", "59.990");
  }
  ASSERT_TRUE(round({{"features", {"main_journal"}}, {"again", true}}));
  bench.press("mic", "59.990");
  EXPECT_EQ(here(), "main_journal/1");
  bench.press("mic", "59.990");
  EXPECT_EQ(here(), "main_journal/2");
}

TEST_F(Rounds, WithoutARoundThereIsNoNext) {
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  EXPECT_EQ(bench.act(round_next, Json::object()).error().code, "no_round");
}

TEST_F(Rounds, ACheckIsAnsweredOnTheWay) {
  ASSERT_TRUE(round({{"features", {"oil_ways_clear", "piston"}}}));
  bench.press("mic", "82.950");
  EXPECT_EQ(doubts(bench.last_reading()), "wrong_kind");
  ASSERT_TRUE(bench.act(enter, {{"value", "yes"}}));
  EXPECT_EQ(here(), "piston/1");
}

TEST_F(Rounds, AnEngineChosenClearsTheCommonPlace) {
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  bench.add_engine("K2", kTwin);
  EXPECT_EQ(here(), "piston/1");
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  EXPECT_EQ(here(), "none");
}

TEST_F(Rounds, AStageMakesItsFeaturesUnread) {
  ASSERT_TRUE(round({{"features", {"piston"}}}));
  bench.press("mic", "82.950");
  bench.press("mic", "82.950");
  ASSERT_TRUE(bench.act(stage_begin, {{"name", "after honing"}, {"features", {"piston"}}}));
  EXPECT_TRUE(counting(bench.bench.engines.at("K1")).empty());
  ASSERT_TRUE(round({{"features", {"piston"}}}));
  EXPECT_EQ(here(), "piston/1");
  bench.press("mic", "82.955");
  EXPECT_EQ(bench.last_reading().stage, "after honing");
  EXPECT_EQ(bench.act(stage_begin, {{"name", "after honing"}, {"features", {"piston"}}}).error().code, "stage");
}

TEST_F(Rounds, AStageOfACheckWantsItsAnswerAnewUnlessItIsCarried) {
  const auto answered = [&] { return !bench.bench.engines.at("K1").answers.empty(); };
  ASSERT_TRUE(bench.act(at, {{"words", {"oil_ways_clear"}}}));
  ASSERT_TRUE(bench.act(enter, {{"value", "yes"}}));
  ASSERT_TRUE(bench.act(stage_begin, {{"name", "washed"}, {"features", {"oil_ways_clear"}}, {"carry", true}}));
  EXPECT_TRUE(answered());
  ASSERT_TRUE(bench.act(stage_begin, {{"name", "honed"}, {"features", {"piston"}}}));
  EXPECT_TRUE(answered());
  ASSERT_TRUE(bench.act(stage_begin, {{"name", "drilled"}, {"features", {"oil_ways_clear"}}}));
  EXPECT_FALSE(answered());
}

TEST_F(Rounds, ACarriedStageCountsUntilReplaced) {
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  bench.press("mic", "82.950");
  ASSERT_TRUE(bench.act(stage_begin, {{"name", "second look"}, {"features", {"piston"}}, {"carry", true}}));
  EXPECT_TRUE(counting(bench.bench.engines.at("K1")).at({"piston", 1, "", ""}).carried);
  bench.press("mic", "82.958");
  EXPECT_EQ(doubts(bench.last_reading()), "");  // another stage: no repeat to differ from
  EXPECT_EQ(counting(bench.bench.engines.at("K1")).at({"piston", 1, "", ""}).size, Length::from_um(82'958));
}

}  // namespace
}  // namespace tenth
