#include <gtest/gtest.h>

#include "daemon/gauge_view.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Settings : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("bore", {{"measures", "inside"}, {"reads", "deviation"}, {"drift", "0.003 mm"}});
    ASSERT_TRUE(bench.act(round_begin, {{"features", {"bore"}}}));
  }
  void set(const std::string& size, const std::string& shown) {
    ASSERT_TRUE(bench.act(master, {{"gauge", "bore"}, {"size", size}}));
    bench.press("bore", shown);
  }
  void recheck_at(const std::string& shown) {
    ASSERT_TRUE(bench.act(recheck, {{"gauge", "bore"}}));
    bench.press("bore", shown);
  }
  const Gauge& gauge() const { return bench.bench.gauges.at("bore"); }
  std::size_t open_alerts(AlertWhat what) const {
    return static_cast<std::size_t>(std::count_if(
        bench.bench.alerts.begin(), bench.bench.alerts.end(),
        [what](const Alert& alert) { return alert.cause.what == what && alert.state == AlertState::open; }));
  }
  Workbench bench;
};

TEST_F(Settings, TheFrameOnTheMasterIsASettingAndNoReading) {
  set("83.000 mm", "0.002");
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"setting"});
  EXPECT_TRUE(bench.bench.reading_index.empty());
  bench.press("bore", "0.012");
  EXPECT_EQ(bench.last_reading().size, Length::from_um(83'010));
  EXPECT_EQ(bench.last_reading().setting, gauge().setting->seq);
}

TEST_F(Settings, ASizeGaugeWithASettingIsCorrectedByItsMaster) {
  bench.add_gauge("mic", {{"measures", "outside"}});
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"size", "75.000"}, {"unit", "mm"}}));
  bench.press("mic", "75.002");
  bench.press("mic", "82.952");
  EXPECT_EQ(bench.last_reading().size, Length::from_um(82'950));
}

TEST_F(Settings, AGoodCheckClosesTheReadingsBeforeIt) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  EXPECT_FALSE(bench.last_reading().closed);
  recheck_at("0.003");  // at the limit of its drift: inclusive
  EXPECT_TRUE(bench.last_reading().closed);
  EXPECT_EQ(gauge().setting->shown, Length());  // a re-check keeps the zero
}

TEST_F(Settings, ADriftPutsEveryReadingSinceTheLastGoodCheckInDoubt) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  const std::int64_t closed = bench.last_reading().seq;
  recheck_at("0.001");
  bench.press("bore", "0.011");
  bench.press("bore", "0.012");
  const std::int64_t open = bench.last_reading().seq;
  recheck_at("-0.004");
  EXPECT_EQ(find_reading(bench.bench, closed)->state, State::kept);
  EXPECT_EQ(find_reading(bench.bench, open)->state, State::suspect);
  EXPECT_EQ(doubts(*find_reading(bench.bench, open)), "drift");
  EXPECT_EQ(open_alerts(AlertWhat::drift), 1U);
}

TEST_F(Settings, AVoidReadingKeptLaterStillTellsTheDrift) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  const std::int64_t seq = bench.last_reading().seq;
  ASSERT_TRUE(bench.act(void_readings, {{"first", seq}, {"reason", "burr"}}));
  recheck_at("0.010");
  EXPECT_EQ(find_reading(bench.bench, seq)->state, State::voided);
  EXPECT_EQ(doubts(*find_reading(bench.bench, seq)), "drift");
}

TEST_F(Settings, AHandGaugeIsNotAwaitedForEver) {
  ASSERT_TRUE(bench.act(gauge_add, {{"name", "dial"}, {"port", "hand"}, {"profile", "line"}, {"measures", "inside"}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  ASSERT_TRUE(bench.act(master, {{"gauge", "dial"}, {"size", "83.000 mm"}}));
  bench.pass(121);
  ASSERT_TRUE(bench.act(enter, {{"value", "83.010"}, {"again", "83.010"}, {"gauge", "dial"}}));
  EXPECT_EQ(bench.last_reading().size, Length::from_um(83'010));
}

TEST_F(Settings, ADriftReachesReadingsOfOtherEngines) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  const std::int64_t first = bench.last_reading().seq;
  bench.add_engine("K2", kTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/2/top/pin"}}}));
  bench.press("bore", "0.010");
  const std::int64_t second = bench.last_reading().seq;
  recheck_at("0.010");
  EXPECT_EQ(doubts(*find_reading(bench.bench, first)), "drift");
  EXPECT_EQ(doubts(*find_reading(bench.bench, second)), "drift");
}

TEST_F(Settings, TheSameMasterAgainIsCheckedFirstAndThenSets) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  set("83.000 mm", "0.005");
  EXPECT_EQ(doubts(bench.last_reading()), "drift");
  EXPECT_EQ(gauge().setting->shown, Length::from_um(5));
  bench.press("bore", "0.015");
  EXPECT_EQ(bench.last_reading().size, Length::from_um(83'010));
  EXPECT_EQ(doubts(bench.last_reading()), "");
}

TEST_F(Settings, AnotherMasterChecksNothing) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  set("84.000 mm", "1.500");
  EXPECT_EQ(doubts(bench.last_reading()), "");
  EXPECT_FALSE(bench.last_reading().closed);
}

TEST_F(Settings, TheDriftAlertEndsWhenNothingIsInDoubtAndTheGaugeIsSetAnew) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  const std::int64_t seq = bench.last_reading().seq;
  recheck_at("0.010");
  ASSERT_TRUE(bench.act(void_readings, {{"first", seq}, {"reason", "drift"}}));
  EXPECT_EQ(open_alerts(AlertWhat::drift), 1U);
  set("83.000 mm", "0.000");
  EXPECT_EQ(open_alerts(AlertWhat::drift), 0U);
}

TEST_F(Settings, AFrameThatCannotBeTrustedIsNoSetting) {
  ASSERT_TRUE(bench.act(master, {{"gauge", "bore"}, {"size", "83.000 mm"}}));
  bench.press({"bore", {"0.000", "0.000", Length(), Unit::mm, true}, true, {}, {}, 0, {}});
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"fault"});
  bench.press("bore", "0.0000", Unit::in);
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"fault"});
  EXPECT_TRUE(gauge().awaited);
  EXPECT_FALSE(gauge().setting);
}

TEST_F(Settings, ChoosingAPlaceEndsTheWaiting) {
  ASSERT_TRUE(bench.act(master, {{"gauge", "bore"}, {"size", "83.000 mm"}}));
  const auto answer = bench.act(at, {{"words", {"bore/1/top/pin"}}});
  ASSERT_TRUE(answer);
  EXPECT_EQ((*answer)["ended"], Json::array({"bore"}));
  bench.press("bore", "0.000");
  EXPECT_EQ(doubts(bench.last_reading()), "no_setting");
}

TEST_F(Settings, AVoidedSettingDoubtsWhatRestsOnIt) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  ASSERT_TRUE(bench.act(void_readings, {{"first", gauge().setting->seq}, {"reason", "it was the wrong ring"}}));
  EXPECT_EQ(doubts(bench.last_reading()), "setting_void");
  EXPECT_FALSE(gauge().setting);
}

TEST_F(Settings, APressThatWaitedToCheckAVoidedSettingIsHeldAsAReading) {
  set("83.000 mm", "0.000");
  ASSERT_TRUE(bench.act(recheck, {{"gauge", "bore"}}));
  ASSERT_TRUE(bench.act(void_readings, {{"first", gauge().setting->seq}, {"reason", "it was the wrong ring"}}));
  bench.press("bore", "0.010");
  EXPECT_EQ(doubts(bench.last_reading()), "no_setting");
}

TEST_F(Settings, AnotherUnitSetsTheDriftAlertAtRest) {
  set("83.000 mm", "0.000");
  recheck_at("0.010");
  ASSERT_EQ(open_alerts(AlertWhat::drift), 1U);
  ASSERT_TRUE(bench.act(gauge_change, {{"name", "bore"}, {"gauge_unit", "in"}}));
  EXPECT_EQ(open_alerts(AlertWhat::drift), 0U);
}

TEST_F(Settings, ASettingWhoseDamageShowsLaterIsVoidOnce) {
  set("83.000 mm", "0.000");
  const std::int64_t set_by = gauge().setting->seq;
  bench.press("bore", "0.010");  // in the same burst
  const std::int64_t reading = bench.last_reading().seq;
  bench.damage({set_by, reading});
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"setting_void", "doubt", "doubt", "place", "alert"}));
  EXPECT_EQ(doubts(bench.last_reading()), "setting_void damaged");
  EXPECT_FALSE(gauge().setting);
  EXPECT_TRUE(find_setting(bench.bench, set_by)->voided);
  bench.damage({set_by, reading});  // another fault of that burst
  EXPECT_TRUE(bench.kinds().empty());
  bench.press("bore", "0.011");
  EXPECT_EQ(doubts(bench.last_reading()), "no_setting");
}

TEST_F(Settings, ADamagedCheckVouchesForNothing) {
  set("83.000 mm", "0.000");
  const std::int64_t zero = gauge().setting->seq;
  bench.press("bore", "0.010");
  const std::int64_t early = bench.last_reading().seq;
  recheck_at("0.001");
  const std::int64_t sound = gauge().last_good_check;
  bench.press("bore", "0.011");
  const std::int64_t late = bench.last_reading().seq;
  bench.link("bore", "gone");
  recheck_at("0.002");
  const std::int64_t damaged = gauge().last_good_check;
  EXPECT_TRUE(find_reading(bench.bench, late)->closed);
  bench.damage({damaged});
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"setting_void", "reopened"}));
  EXPECT_EQ(gauge().setting->seq, zero) << "a check that does not count leaves the zero";
  EXPECT_EQ(gauge().last_good_check, sound);
  EXPECT_TRUE(find_reading(bench.bench, early)->closed);
  EXPECT_FALSE(find_reading(bench.bench, late)->closed);
  bench.press("bore", "0.012");
  EXPECT_EQ(doubts(bench.last_reading()), "setting_old") << "it was away, and that is unchecked again";
  recheck_at("0.010");
  EXPECT_EQ(find_reading(bench.bench, early)->state, State::kept);
  EXPECT_EQ(doubts(*find_reading(bench.bench, late)), "drift");
}

TEST_F(Settings, ADamagedCheckThatToldADriftIsForgottenAsACheck) {
  set("83.000 mm", "0.000");
  recheck_at("0.010");
  EXPECT_TRUE(gauge().drifted);
  bench.damage({bench.bench.settings.back().seq});
  EXPECT_FALSE(gauge().drifted);
  EXPECT_EQ(open_alerts(AlertWhat::drift), 0U);
}

TEST_F(Settings, ALaterCheckStillVouchesWhenTheOneBeforeIsVoided) {
  set("83.000 mm", "0.000");
  bench.press("bore", "0.010");
  recheck_at("0.001");
  const std::int64_t first = gauge().last_good_check;
  recheck_at("0.001");
  const std::int64_t second = gauge().last_good_check;
  ASSERT_TRUE(bench.act(void_readings, {{"first", first}, {"reason", "dirt on the ring"}}));
  EXPECT_TRUE(bench.last_reading().closed);
  EXPECT_EQ(gauge().last_good_check, second);
}

TEST_F(Settings, AGaugeWithoutAWireIsSetByHand) {
  ASSERT_TRUE(bench.act(
      gauge_add,
      {{"name", "dial"}, {"port", "hand"}, {"profile", "line"}, {"reads", "deviation"}, {"measures", "inside"}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  ASSERT_TRUE(bench.act(master, {{"gauge", "dial"}, {"size", "83.000 mm"}}));
  const auto set = bench.act(enter, {{"value", "-0.002"}, {"again", "-0.002"}, {"gauge", "dial"}});
  ASSERT_TRUE(set) << set.error().message;
  EXPECT_EQ((*set)["setting"]["shown_mm"], -0.002);
  EXPECT_TRUE(bench.bench.reading_index.empty());
  ASSERT_TRUE(bench.act(enter, {{"value", "0.010"}, {"again", "0.010"}, {"gauge", "dial"}}));
  EXPECT_EQ(bench.last_reading().size, Length::from_um(83'012));
}

TEST_F(Settings, TheMasterIsToldInTheUnitItWasGivenIn) {
  const auto told = [&](const Json& params) { return (*bench.act(master, params))["unit"]; };
  EXPECT_EQ(told({{"gauge", "bore"}, {"size", "3.2677 in"}}), "in");
  EXPECT_EQ(told({{"gauge", "bore"}, {"size", "3.2677"}, {"unit", "in"}}), "in");
  EXPECT_EQ(told({{"gauge", "bore"}, {"size", "83"}}), "mm") << "the spec's";
  bench.press("bore", "0.000");
  EXPECT_EQ((*bench.act(recheck, {{"gauge", "bore"}}))["unit"], "mm");
  EXPECT_EQ(gauge_json(bench.view(), gauge())["setting"]["unit"], "mm") << "that the gauge showed";
  std::string inches = kTwin;
  bench.add_engine("K2", inches.replace(inches.find("unit = \"mm\""), 11, "unit = \"in\""));
  EXPECT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  EXPECT_EQ((*bench.act(recheck, {{"gauge", "bore"}}))["unit"], "in");
  EXPECT_EQ(told({{"gauge", "bore"}, {"size", "3.2677"}}), "in");
}

TEST_F(Settings, AReCheckNeedsASetting) {
  const auto refused = bench.act(recheck, {{"gauge", "bore"}});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "no_setting");
}

}  // namespace
}  // namespace tenth
