#include <gtest/gtest.h>

#include "daemon/events.hpp"
#include "schema/ledger/fold.hpp"
#include "tests/daemon/workbench.hpp"

// A setting's master was another size than was said.

namespace tenth {
namespace {

class MasterCorrect : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("bore", {{"measures", "inside"}, {"reads", "deviation"}});
    set_bore({{"size", "83.000 mm"}}, "0.002");
    zero = bench.bench.gauges.at("bore").setting->seq;
    reading = read("bore/1/top/thrust", "bore", "0.012");
  }
  void set_bore(const Json& on, const std::string& shown) {
    Json params = {{"gauge", "bore"}};
    params.update(on);
    ASSERT_TRUE(bench.act(master, params));
    bench.press("bore", shown);
  }
  std::int64_t read(const std::string& place, const std::string& gauge, const std::string& shown) {
    EXPECT_TRUE(bench.act(at, {{"words", {place}}}));
    bench.press(gauge, shown);
    return bench.last_reading().seq;
  }
  Result<Json> correct(std::int64_t setting, const std::string& size) {
    return bench.act(master_correct,
                     {{"setting", setting}, {"size", size}, {"unit", "mm"}, {"reason", "it was the other ring"}});
  }
  std::string refused(std::int64_t setting, const std::string& size) {
    const auto answer = correct(setting, size);
    if (answer) return "done";
    EXPECT_EQ(answer.error().exit, Exit::refused) << answer.error().message;
    return answer.error().code;
  }
  const Reading& at_seq(std::int64_t seq) const { return *find_reading(bench.bench, seq); }
  Workbench bench;
  std::int64_t zero = 0, reading = 0;
};

TEST_F(MasterCorrect, SizesFollowAndWhatWasReadStays) {
  ASSERT_EQ(at_seq(reading).size, Length::from_um(83'010));
  const auto answer = correct(zero, "83.020");
  ASSERT_TRUE(answer) << answer.error().message;
  EXPECT_EQ((*answer)["seqs"], Json::array({reading}));
  EXPECT_EQ((*answer)["settings"], Json::array({zero}));
  EXPECT_EQ(at_seq(reading).size, Length::from_um(83'030));
  EXPECT_EQ(at_seq(reading).value, Length::from_um(12));
  EXPECT_EQ(at_seq(reading).text, "0.012");
  EXPECT_EQ(at_seq(reading).raw, "0.012");
  EXPECT_EQ(at_seq(reading).state, State::kept);
  EXPECT_EQ(at_seq(read("bore/1/top/pin", "bore", "0.002")).size, Length::from_um(83'020))
      << "later ones rest on it too";
}

TEST_F(MasterCorrect, VerdictsAndAlertsFollowInTheSameTransaction) {
  ASSERT_TRUE(correct(zero, "83.100"));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"setting_correct", "resized", "alert"}));
  EXPECT_EQ(bench.last.back().body["what"], "out");
  ASSERT_TRUE(correct(zero, "83.001"));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"setting_correct", "resized", "alert_end"}));
}

TEST_F(MasterCorrect, IsToldAsAChangeOfTheSettingAndOfEachReading) {
  ASSERT_TRUE(correct(zero, "83.020"));
  const auto setting = events_of(bench.bench, {bench.last[0].seq, bench.last[0].body, ""});
  EXPECT_EQ(setting.at(0)["seq"], zero);
  EXPECT_EQ(setting.at(0)["master_mm"], 83.02);
  EXPECT_EQ(setting.at(0)["reason"], "it was the other ring");
  const auto change = events_of(bench.bench, {bench.last[1].seq, bench.last[1].body, ""});
  EXPECT_EQ(change.at(0)["event"], "change");
  EXPECT_EQ(change.at(0)["act"], "resized");
  EXPECT_EQ(change.at(0)["seq"], reading);
  EXPECT_EQ(change.at(0)["state"], "kept");
  EXPECT_EQ(change.at(0)["size_mm"], 83.03);
  EXPECT_EQ(change.at(0)["by_seq"], bench.last[1].seq);
}

TEST_F(MasterCorrect, TheSizeAt20Follows) {
  std::string spec = kTwin;
  spec.replace(spec.find("out_of_round = 0.010"), 20, "material = \"steel\"");
  bench.add_engine("K2", spec);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  ASSERT_TRUE(bench.act(temperature, {{"part", "30"}, {"gauge", "20"}}));
  const std::int64_t warm = read("bore/1/top/thrust", "bore", "0.012");
  ASSERT_EQ(at_seq(warm).size_20c, Length::from_pm(83'000'619'870));  // 83.010 × (1 - 11.3e-6 × 10)
  ASSERT_TRUE(correct(zero, "83.000001"));
  EXPECT_EQ(at_seq(warm).size_20c, Length::from_pm(83'000'620'870));  // 1 nm more, less 0.1 pm
}

TEST_F(MasterCorrect, EveryEngineHasAnEntryOfItsOwn) {
  bench.add_engine("K2", kTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  const std::int64_t other = read("bore/1/top/thrust", "bore", "0.010");
  ASSERT_TRUE(correct(zero, "83.020"));
  ASSERT_GE(bench.last.size(), 3U);
  EXPECT_EQ(bench.last[1].body["engine"], "K1");
  EXPECT_EQ(bench.last[1].body["seqs"], Json::array({reading}));
  EXPECT_EQ(bench.last[2].body["engine"], "K2");
  EXPECT_EQ(bench.last[2].body["seqs"], Json::array({other}));
  EXPECT_EQ(at_seq(other).size, Length::from_um(83'028));
}

TEST_F(MasterCorrect, OnlyReadingsOfThatSettingFollow) {
  set_bore({{"size", "83.000 mm"}}, "0.002");
  const std::int64_t later = read("bore/1/top/pin", "bore", "0.012");
  ASSERT_TRUE(correct(zero, "83.020"));
  EXPECT_EQ(at_seq(later).size, Length::from_um(83'010));
  EXPECT_EQ(bench.bench.gauges.at("bore").setting->master, Length::from_um(83'000));
}

TEST_F(MasterCorrect, VoidReadingsFollowTooAsTheyMayBeKept) {
  ASSERT_TRUE(bench.act(void_readings, {{"first", reading}, {"reason", "burr"}}));
  ASSERT_TRUE(correct(zero, "83.020"));
  EXPECT_EQ(at_seq(reading).size, Length::from_um(83'030));
  EXPECT_EQ(at_seq(reading).state, State::voided);
}

TEST_F(MasterCorrect, WhatChecksFoundStaysAndTheirMasterFollows) {
  ASSERT_TRUE(bench.act(recheck, {{"gauge", "bore"}}));
  bench.press("bore", "0.003");
  const Setting check = bench.bench.settings.back();
  ASSERT_TRUE(check.good == true);
  ASSERT_TRUE(correct(zero, "83.020"));
  const Setting& now = bench.bench.settings.back();
  EXPECT_EQ(now.drift, check.drift);
  EXPECT_EQ(now.good, check.good);
  EXPECT_EQ(now.master, Length::from_um(83'020));
  EXPECT_TRUE(at_seq(reading).closed);
  EXPECT_EQ(refused(check.seq, "83.010"), "check");
  set_bore({{"size", "83.020 mm"}}, "0.004");
  EXPECT_EQ(bench.bench.settings.back().drift, Length::from_um(2)) << "that is the same master now";
}

TEST_F(MasterCorrect, AGaugeThatWasSetInThisOneFollows) {
  bench.add_gauge("mic", {{"measures", "outside"}});
  ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"size", "75 mm"}}));
  bench.press("mic", "75.000");
  const std::int64_t rod = bench.bench.settings.back().seq;
  const std::int64_t piston = read("piston/1", "mic", "82.950");
  set_bore({{"in", "mic"}}, "0.000");
  const std::int64_t in_mic = bench.bench.settings.back().seq;
  ASSERT_TRUE(bench.act(recheck, {{"gauge", "bore"}}));
  bench.press("bore", "0.001");  // follows its setting, and is none of its own
  const std::int64_t bored = read("bore/2/top/pin", "bore", "0.060");
  const auto answer = correct(rod, "74.990");
  ASSERT_TRUE(answer) << answer.error().message;
  EXPECT_EQ((*answer)["settings"], Json::array({rod, in_mic}));
  EXPECT_EQ((*answer)["seqs"], Json::array({piston, bored}));
  EXPECT_EQ(at_seq(piston).size, Length::from_um(82'940));
  EXPECT_EQ(at_seq(bored).size, Length::from_um(83'000));
  EXPECT_EQ(at_seq(reading).size, Length::from_um(83'010)) << "set before, on a ring";
  ASSERT_TRUE(correct(rod, "74.980"));
  EXPECT_EQ(at_seq(bored).size, Length::from_um(82'990)) << "it follows every correction, not the first alone";
  ASSERT_TRUE(correct(in_mic, "82.955"));  // said outright: it follows nothing any more
  ASSERT_TRUE(correct(rod, "75.000"));
  EXPECT_EQ(at_seq(piston).size, Length::from_um(82'950));
  EXPECT_EQ(at_seq(bored).size, Length::from_um(83'015));
}

TEST_F(MasterCorrect, IsRefusedWhereThereIsNothingToCorrect) {
  EXPECT_EQ(refused(reading, "83.020"), "unknown_setting");
  EXPECT_EQ(refused(9999, "83.020"), "unknown_setting");
  EXPECT_EQ(refused(zero, "83.000"), "same");
  EXPECT_EQ(refused(zero, "-1"), "length");
  const auto no_reason = bench.act(master_correct, {{"setting", zero}, {"size", "83.020 mm"}, {"reason", "  "}});
  ASSERT_FALSE(no_reason);
  EXPECT_EQ(no_reason.error().exit, Exit::words);
  ASSERT_TRUE(bench.act(void_readings, {{"first", zero}, {"reason", "wrong ring"}}));
  EXPECT_EQ(refused(zero, "83.020"), "void");
}

TEST_F(MasterCorrect, ADroppedGaugesSettingCanBeCorrected) {
  ASSERT_TRUE(bench.act(gauge_drop, {{"name", "bore"}}));
  ASSERT_TRUE(correct(zero, "83.020"));
  EXPECT_EQ(at_seq(reading).size, Length::from_um(83'030));
}

}  // namespace
}  // namespace tenth
