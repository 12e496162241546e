#include <gtest/gtest.h>

#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Intake : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("mic", {{"measures", "outside"}});
    bench.add_gauge("bore", {{"measures", "inside"}, {"reads", "deviation"}});
    ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  }
  void set_bore(const std::string& shown = "0.000") {
    ASSERT_TRUE(bench.act(master, {{"gauge", "bore"}, {"size", "83.000 mm"}}));
    bench.press("bore", shown);
  }
  /// What a press is doubted for; and that the place stays where it is when it is.
  std::string doubts_of_press(const std::string& gauge, const std::string& number, Unit unit = Unit::mm) {
    const Place before = bench.place(gauge);
    bench.press(gauge, number, unit);
    EXPECT_EQ(bench.place(gauge), before);
    EXPECT_EQ(bench.last_reading().state, bench.last_reading().doubts.empty() ? State::kept : State::suspect);
    return doubts(bench.last_reading());
  }
  Workbench bench;
};

TEST_F(Intake, AReadingHoldsWhatItRestsOn) {
  ASSERT_TRUE(bench.act(operator_add, {{"name", "ann"}}));
  bench.press("mic", "82.951");
  const Json& body = bench.last.front().body;
  EXPECT_EQ(body["kind"], "reading");
  EXPECT_EQ(body["operator"], "ann");
  EXPECT_EQ(body["size_pm"], 82'951'000'000);
  EXPECT_EQ(body["spec"], bench.bench.engines.at("K1").spec_seq);
  EXPECT_EQ(body["gauge_entry"], bench.bench.gauges.at("mic").entry);
  EXPECT_EQ(body["place"], bench.bench.common.seq);
  EXPECT_EQ(body["setting"], nullptr);
  EXPECT_EQ(body["stage"], "as found");
  EXPECT_EQ(body["by"]["via"], "gauge");
  EXPECT_EQ(body["profile"], bench.bench.gauges.at("mic").profile_sha256);
}

TEST_F(Intake, AGaugeForOutsidesCannotRecordInABore) {
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  EXPECT_EQ(doubts_of_press("mic", "83.010"), "wrong_kind");
}

TEST_F(Intake, AComparatorThatWasNeverSetHasNoSize) {
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  EXPECT_EQ(doubts_of_press("bore", "0.010"), "no_setting");
  EXPECT_FALSE(bench.last_reading().size);
}

TEST_F(Intake, WithoutAPlaceNothingIsKept) {
  ASSERT_TRUE(bench.act(at_none, Json::object()));
  EXPECT_EQ(doubts_of_press("mic", "82.950"), "no_place");
  EXPECT_EQ(bench.last_reading().engine, "K1");
}

TEST_F(Intake, WithoutAnEngineAReadingIsStillStored) {
  Workbench bare;
  bare.add_gauge("mic", Json::object());
  bare.press("mic", "82.950");
  EXPECT_EQ(doubts(bare.last_reading()), "no_place");
  EXPECT_FALSE(bare.last_reading().engine);
}

TEST_F(Intake, AGaugeTurnedToInchesIsNotTakenAtItsWord) {
  EXPECT_EQ(doubts_of_press("mic", "3.2657", Unit::in), "unit");
}

TEST_F(Intake, ASlipOfTheDecimalPoint) {
  EXPECT_EQ(doubts_of_press("mic", "829.20"), "range tenfold");
}

TEST_F(Intake, InchesTakenForMillimetres) {
  EXPECT_EQ(doubts_of_press("mic", "3.2657"), "range inch_mm");
}

TEST_F(Intake, OneTurnOfTheThimble) {
  EXPECT_EQ(doubts_of_press("mic", "83.451"), "turn");
}

TEST_F(Intake, TwoReadingsOfOnePlaceThatDisagree) {
  bench.press("mic", "82.941");
  EXPECT_EQ(doubts_of_press("mic", "82.958"), "repeat");
}

TEST_F(Intake, ADamagedNeighbour) {
  Frame frame{"mic", {"82.950", "82.950", Length::from_um(82'950), Unit::mm, true}, true, {}, {}, 3, {}};
  bench.press(frame);
  EXPECT_EQ(doubts(bench.last_reading()), "damaged");
  EXPECT_EQ(bench.last.front().body["dropped"], 3);
}

TEST_F(Intake, AFaultAfterAReadingInTheSameBurstDoubtsIt) {
  bench.press("mic", "82.950");
  const std::int64_t seq = bench.last_reading().seq;
  Draft draft(bench.bench, {"tester", 0, "daemon"}, bench.now, "boot", bench.rules, bench.live);
  doubt_damaged(draft, {0, seq});
  EXPECT_EQ(bench.last_reading().state, State::suspect);
  EXPECT_EQ(doubts(bench.last_reading()), "damaged");
}

TEST_F(Intake, OnARoundASecondPressTooSoonIsSuspect) {
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston"}}}));
  Frame frame{"mic", {"82.950", "82.950", Length::from_um(82'950), Unit::mm, true}, false, {}, 200'000'000, 0, {}};
  bench.press(frame);
  EXPECT_EQ(doubts(bench.last_reading()), "too_soon");
  frame.since_last_ns = 300'000'000;
  bench.press(frame);
  EXPECT_EQ(doubts(bench.last_reading()), "");
}

TEST_F(Intake, ASettingGrowsOld) {
  set_bore();
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.pass(12 * 3600 - 10);
  bench.press("bore", "0.010");
  EXPECT_EQ(doubts(bench.last_reading()), "");
  bench.pass(60);
  EXPECT_EQ(doubts_of_press("bore", "0.010"), "setting_old");
}

TEST_F(Intake, AGaugeThatWentAwayWantsItsSettingChecked) {
  set_bore();
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.link("bore", "gone");
  bench.link("bore", "open");
  EXPECT_EQ(doubts_of_press("bore", "0.010"), "setting_old");
  ASSERT_TRUE(bench.act(recheck, {{"gauge", "bore"}}));
  bench.press("bore", "0.001");
  bench.press("bore", "0.010");
  EXPECT_EQ(doubts(bench.last_reading()), "");
}

TEST_F(Intake, AFrameBelongsToThePlaceThatStoodWhenItCame) {
  const Before before{bench.bench.common, std::nullopt};
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "2"}}}));
  Frame frame{"mic", {"82.950", "82.950", Length::from_um(82'950), Unit::mm, true}, false, {}, {}, 0, before};
  bench.press(frame);
  EXPECT_EQ(bench.last_reading().place->index, 1);
  EXPECT_EQ(bench.place().index, 2);
}

TEST_F(Intake, ASuspectReadingRaisesAnAlertInTheSameTransaction) {
  bench.press("mic", "829.50");
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"reading", "alert"}));
}

TEST_F(Intake, AFaultIsAnEntryAndNoReading) {
  bench.fault("mic");
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"fault"});
  EXPECT_TRUE(bench.bench.reading_index.empty());
}

}  // namespace
}  // namespace tenth
