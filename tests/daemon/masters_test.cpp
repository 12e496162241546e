#include <gtest/gtest.h>

#include <cstdlib>

#include "daemon/gauge_view.hpp"
#include "daemon/queries.hpp"
#include "tests/daemon/workbench.hpp"

// Masters with names, and a gauge that is set in another one.

namespace tenth {
namespace {

class Masters : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("bore", {{"measures", "inside"}, {"reads", "deviation"}, {"uncertainty", "0.003 mm"}});
    bench.add_gauge("mic", {{"measures", "outside"}, {"uncertainty", "0.004 mm"}});
  }
  void add(const std::string& name, const std::string& size, const Json& more = Json::object()) {
    Json params = {{"name", name}, {"size", size}};
    params.update(more);
    const auto added = bench.act(masters_add, params);
    ASSERT_TRUE(added) << added.error().message;
  }
  void set(const Json& on, const std::string& shown) {
    Json params = {{"gauge", "bore"}};
    params.update(on);
    const auto asked = bench.act(master, params);
    ASSERT_TRUE(asked) << asked.error().message;
    bench.press("bore", shown);
  }
  void at_piston(const std::string& shown) {
    ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
    bench.press("mic", shown);
  }
  std::string refused(Decided (*what)(Draft&, const Json&), const Json& params, Exit exit = Exit::refused) {
    const auto answer = bench.act(what, params);
    if (answer) return "done";
    EXPECT_EQ(answer.error().exit, exit) << answer.error().message;
    return answer.error().code;
  }
  const Setting& setting() const { return bench.bench.settings.back(); }
  Workbench bench;
};

TEST_F(Masters, AreListedUntilDropped) {
  add("R83", "83.0012 mm", {{"certificate", "C-1"}, {"due", "2027-03-01"}, {"uncertainty", "0.0008 mm"}});
  add("block", "1 in");
  const Json list = masters_list(bench.view(), Json::object()).value();
  ASSERT_EQ(list.size(), 2U);
  EXPECT_EQ(list[0]["name"], "R83");
  EXPECT_EQ(list[0]["size_mm"], 83.0012);
  EXPECT_EQ(list[0]["certificate"], "C-1");
  EXPECT_EQ(list[0]["due"], "2027-03-01");
  EXPECT_EQ(list[0]["uncertainty_mm"], 0.0008);
  EXPECT_EQ(list[0]["overdue"], false);
  EXPECT_EQ(list[1]["unit"], "in");
  EXPECT_EQ(list[1]["certificate"], nullptr);
  EXPECT_EQ(list[1]["due"], nullptr);
  EXPECT_EQ(refused(masters_add, {{"name", "R83"}, {"size", "83 mm"}}), "master_exists");
  ASSERT_TRUE(bench.act(masters_drop, {{"name", "R83"}}));
  EXPECT_EQ(masters_list(bench.view(), Json::object())->size(), 1U);
  EXPECT_EQ(refused(masters_drop, {{"name", "R83"}}), "unknown_master");
  EXPECT_EQ(refused(master, {{"gauge", "bore"}, {"size", "R83"}}), "unknown_master");
  add("R83", "83.0010 mm");  // certified anew
  EXPECT_EQ(bench.bench.masters.at("R83").size, Length::from_um(83'001));
}

TEST_F(Masters, AGaugeIsSetOnOneByItsName) {
  add("R83", "83.0012 mm");
  set({{"size", "R83"}}, "0.001");
  EXPECT_EQ(setting().master, Length::from_pm(83'001'200'000));
  EXPECT_EQ(setting().used.name, "R83");
  EXPECT_EQ(setting().used.entry, bench.bench.masters.at("R83").entry);
  EXPECT_EQ(bench.last.front().body["master_entry"], bench.bench.masters.at("R83").entry);
  EXPECT_EQ(gauge_json(bench.view(), bench.bench.gauges.at("bore"))["setting"]["master"], "R83");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.press("bore", "0.011");
  EXPECT_EQ(bench.last_reading().size, Length::from_pm(83'011'200'000));
  EXPECT_EQ(bench.last_reading().uncertainty, Length::from_um(3)) << "the gauge's own has its master in";
}

TEST_F(Masters, NamesAndSizesAreNeverMixedUp) {
  for (const char* name : {"83", "83 ring", "-a", "+", ".", " ", ",5"})
    EXPECT_EQ(refused(masters_add, {{"name", name}, {"size", "83 mm"}}, Exit::words), "name") << name;
  EXPECT_EQ(refused(masters_add, {{"name", "R"}, {"size", "-1 mm"}}), "length");
  EXPECT_EQ(refused(masters_add, {{"name", "R"}, {"size", "1 mm"}, {"uncertainty", "-1 um"}}, Exit::words), "length");
  for (const char* day : {"2027-02-29", "tomorrow", "2027-3-1", "2027-03-01T00:00:00Z", "0999-01-01", ""})
    EXPECT_EQ(refused(masters_add, {{"name", "R"}, {"size", "1 mm"}, {"due", day}}, Exit::words), "day") << day;
  EXPECT_NE(refused(master, {{"gauge", "bore"}, {"size", "83 furlong"}}, Exit::words), "done");
  EXPECT_EQ(refused(master, {{"gauge", "bore"}, {"size", "ring"}}), "unknown_master");
  EXPECT_EQ(refused(master, {{"gauge", "bore"}}, Exit::words), "master");
  EXPECT_EQ(refused(master, {{"gauge", "bore"}, {"size", "83"}, {"in", "mic"}}, Exit::words), "master");
}

TEST_F(Masters, OneThatIsPastItsDueDayIsSaidSo) {
  setenv("TZ", "UTC", 1);
  add("R83", "83 mm", {{"due", "2027-01-15"}});  // the bench's clock begins on that day
  EXPECT_EQ((*bench.act(master, {{"gauge", "bore"}, {"size", "R83"}}))["overdue"], false);
  bench.pass(86'400);
  EXPECT_EQ((*bench.act(master, {{"gauge", "bore"}, {"size", "R83"}}))["overdue"], true);
  EXPECT_EQ(masters_list(bench.view(), Json::object()).value()[0]["overdue"], true);
}

TEST_F(Masters, AnotherMasterOfTheSameSizeChecksNothing) {
  add("ring A", "83 mm");
  add("ring B", "83 mm");
  set({{"size", "ring A"}}, "0.000");
  set({{"size", "ring A"}}, "0.001");
  EXPECT_EQ(setting().drift, Length::from_um(1));
  set({{"size", "ring B"}}, "0.002");
  EXPECT_FALSE(setting().drift);
  ASSERT_TRUE(bench.act(recheck, {{"gauge", "bore"}}));
  bench.press("bore", "0.003");
  EXPECT_EQ(setting().drift, Length::from_um(1));
  EXPECT_EQ(setting().used.name, "ring B") << "a re-check is made on the same master";
}

TEST_F(Masters, InAnotherGaugeItIsClampedAtItsLastReading) {
  at_piston("82.953");
  at_piston("82.950");
  const std::int64_t reading = bench.last_reading().seq;
  const Json asked = *bench.act(master, {{"gauge", "bore"}, {"in", "mic"}});
  EXPECT_EQ(asked["master_mm"], 82.95);
  EXPECT_EQ(asked["in"], "mic");
  bench.press("bore", "0.000");
  EXPECT_EQ(setting().master, Length::from_um(82'950));
  EXPECT_EQ(setting().used.reading, reading);
  EXPECT_EQ(bench.last.front().body["master_reading"], reading);
  EXPECT_EQ(bench.last.front().body["in"], "mic");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.press("bore", "0.060");
  EXPECT_EQ(bench.last_reading().size, Length::from_um(83'010));
  EXPECT_EQ(bench.last_reading().uncertainty, Length::from_um(5)) << "3, 4, 5: the root of the sum of their squares";
  EXPECT_EQ(bench.bench.gauges.at("bore").uncertainty, Length::from_um(3)) << "the gauge itself is as good as before";
}

TEST_F(Masters, ASettingFallsWithTheReadingItWasMadeIn) {
  at_piston("82.950");
  const std::int64_t measured = bench.last_reading().seq;
  set({{"in", "mic"}}, "0.000");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.press("bore", "0.060");
  const std::int64_t bore = bench.last_reading().seq;
  ASSERT_TRUE(bench.act(void_readings, {{"first", measured}, {"reason", "the piston was warm"}}));
  EXPECT_TRUE(setting().voided);
  EXPECT_EQ(doubts(*find_reading(bench.bench, bore)), "setting_void");
  bench.press("bore", "0.061");
  EXPECT_TRUE(doubts(bench.last_reading()).starts_with("no_setting")) << doubts(bench.last_reading());
}

TEST_F(Masters, AWholeChainOfSettingsFallsWithItsFirstReading) {
  bench.add_gauge("deep", {{"measures", "inside"}, {"reads", "deviation"}});
  at_piston("82.950");
  const std::int64_t measured = bench.last_reading().seq;
  set({{"in", "mic"}}, "0.000");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.press("bore", "0.060");
  ASSERT_TRUE(bench.act(master, {{"gauge", "deep"}, {"in", "bore"}}));
  bench.press("deep", "0.000");
  bench.press("deep", "0.001");
  const std::int64_t last = bench.last_reading().seq;
  ASSERT_TRUE(bench.act(void_readings, {{"first", measured}, {"reason", "the piston was warm"}}));
  EXPECT_EQ(find_reading(bench.bench, last)->state, State::suspect);
  EXPECT_NE(doubts(*find_reading(bench.bench, last)).find("setting_void"), std::string::npos);
}

TEST_F(Masters, AChainOfGaugesJoinsAllUncertainties) {
  bench.add_gauge("deep", {{"measures", "inside"}, {"reads", "deviation"}, {"uncertainty", "0.012 mm"}});
  at_piston("82.950");
  set({{"in", "mic"}}, "0.000");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.press("bore", "0.060");
  ASSERT_TRUE(bench.act(master, {{"gauge", "deep"}, {"in", "bore"}}));
  bench.press("deep", "0.000");
  bench.press("deep", "0.001");
  EXPECT_EQ(bench.last_reading().size, Length::from_um(83'011));
  EXPECT_EQ(bench.last_reading().uncertainty, Length::from_um(13)) << "5, 12, 13";
}

TEST_F(Masters, AnUnknownUncertaintyStaysUnknown) {
  bench.add_gauge("old mic", {{"measures", "outside"}});
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "2"}}}));
  bench.press("old mic", "82.950");
  set({{"in", "old mic"}}, "0.000");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/thrust"}}}));
  bench.press("bore", "0.060");
  EXPECT_FALSE(bench.last_reading().uncertainty);
}

TEST_F(Masters, InAGaugeThatIsNotClampedAnywhereIsRefused) {
  const auto in_mic = [&] { return refused(master, {{"gauge", "bore"}, {"in", "mic"}}); };
  EXPECT_EQ(in_mic(), "no_reading");
  EXPECT_EQ(refused(master, {{"gauge", "bore"}, {"in", "nobody"}}), "unknown_gauge");
  EXPECT_EQ(refused(master, {{"gauge", "bore"}, {"in", "bore"}}, Exit::words), "master");
  at_piston("8.295");
  EXPECT_EQ(in_mic(), "not_kept") << "suspect";
  ASSERT_TRUE(bench.act(void_readings, {{"first", bench.last_reading().seq}, {"reason", "slip"}}));
  EXPECT_EQ(in_mic(), "not_kept") << "void";
  at_piston("82.950");
  EXPECT_EQ(in_mic(), "done");
  bench.pass(12 * 3600 + 1);
  EXPECT_EQ(in_mic(), "old");
  at_piston("82.950");
  ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"size", "75 mm"}}));
  bench.press("mic", "75.000");
  EXPECT_EQ(in_mic(), "moved") << "it was opened for its own master";
}

TEST_F(Masters, InAnotherGaugeAgainIsACheckOnlyAtTheSameReading) {
  at_piston("82.950");
  set({{"in", "mic"}}, "0.000");
  set({{"in", "mic"}}, "0.001");
  EXPECT_EQ(setting().drift, Length::from_um(1));
  at_piston("82.950");  // the same size, clamped anew
  set({{"in", "mic"}}, "0.002");
  EXPECT_FALSE(setting().drift);
}

TEST_F(Masters, AnotherGaugeIsNoStandardOfABias) {
  bench.add_gauge("mic2", {{"measures", "outside"}});
  for (const char* shown : {"75.001", "75.002"}) {
    ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"size", "75 mm"}}));
    bench.press("mic", shown);
  }
  const Json bias = study_bias(bench.view(), {{"gauge", "mic"}}).value();
  EXPECT_EQ(bias["value_mm"], 0.0015);
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  bench.press("mic2", "82.950");
  ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"in", "mic2"}}));
  bench.press("mic", "82.960");
  EXPECT_EQ(study_bias(bench.view(), {{"gauge", "mic"}}).value(), bias);
}

}  // namespace
}  // namespace tenth
