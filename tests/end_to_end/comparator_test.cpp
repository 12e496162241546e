#include <thread>

// Gauges that read deviations: no size without a setting, and no trust past a drift.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Comparator : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("dial", {"--unit", "mm", "--reads", "deviation", "--measures", "inside"});
  }
  json set(const Words& words, const std::string& shown) {
    done(words);
    cable("dial").send(line(shown));
    return watch_->next("setting");
  }
  json master(const std::string& size, const std::string& shown) { return set({"master", "dial", size}, shown); }
  json recheck(const std::string& shown) { return set({"recheck", "dial"}, shown); }
  json at_bore(const std::string& index, const std::string& shown) {
    return press_at({"bore", index, "top", "pin"}, "dial", line(shown));
  }
  static json reading(const json& seq, const std::string& engine = "E1") {
    return reading_of(asked({"readings", "--all", "--engine", engine}), seq);
  }
};

TEST_F(Comparator, WithoutASettingThereIsNoSize) {
  done({"round", "bore"});
  const json unset = press("dial", line("0.010"));
  EXPECT_EQ(doubts_of(unset), "no_setting");
  EXPECT_TRUE(unset["size_mm"].is_null());
  EXPECT_EQ(unset["value_mm"], 0.010);
  EXPECT_EQ(place_of(press("dial", line("0.011"))), "bore/1/top/thrust");
}

TEST_F(Comparator, TheSettingIsNoReading) {
  const json setting = master("86.000", "0.0010");
  EXPECT_EQ(setting["gauge"], "dial");
  EXPECT_EQ(setting["master_mm"], 86);
  EXPECT_EQ(setting["shown_mm"], 0.001);
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
  const std::string csv = done({"export", "--format", "csv"});
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 1) << csv;
  const json status = pick(asked({"status"})["gauges"], {{"name", "dial"}});
  EXPECT_EQ(status["setting"]["master_mm"], 86);
}

TEST_F(Comparator, SizeIsMasterPlusTheDifferenceShown) {
  const json setting = master("3.3858 in", "-0.0015");  // 85.99932 mm
  const json up = at_bore("1", "0.0125");
  EXPECT_EQ(up["size_mm"], 86.01332);
  EXPECT_EQ(up["value_mm"], 0.0125);
  EXPECT_EQ(up["state"], "kept");
  EXPECT_FALSE(up["setting"].is_null());
  EXPECT_EQ(at_bore("2", "-0.0015")["size_mm"], 85.99932);
  EXPECT_EQ(setting.value("drift_mm", json()), json());
}

TEST_F(Comparator, AGaugeThatReadsSizesMayBeSetToo) {
  gauge("bg", {"--unit", "mm", "--reads", "size"});
  EXPECT_EQ(press_at({"bore", "1", "top", "pin"}, "bg", line("86.010"))["size_mm"], 86.010);
  done({"master", "bg", "86.000"});
  cable("bg").send(line("86.003"));
  watch_->next("setting");
  EXPECT_EQ(press_at({"bore", "1", "top", "pin"}, "bg", line("86.012"))["size_mm"], 86.009);
}

TEST_F(Comparator, AGoodRecheckClosesTheReadingsAndKeepsTheZero) {
  master("86.000", "0.000");
  const json first = at_bore("1", "0.010");
  EXPECT_EQ(first["closed"], false);
  const json check = recheck("0.0025");  // at the limit: good
  EXPECT_EQ(check["drift_mm"], 0.0025);
  EXPECT_EQ(check["good"], true);
  EXPECT_EQ(reading(first["seq"])["closed"], true);
  EXPECT_EQ(reading(first["seq"])["state"], "kept");
  const json second = at_bore("2", "0.010");
  EXPECT_EQ(second["size_mm"], 86.010);
  EXPECT_EQ(second["closed"], false);
}

TEST_F(Comparator, ADriftHoldsEveryReadingSinceTheLastGoodCheck) {
  master("86.000", "0.000");
  const json before = at_bore("1", "0.010");
  recheck("0.001");
  const json second = at_bore("2", "0.010");
  const json third = at_bore("3", "0.011");
  watch_->forget();
  const json check = recheck("-0.0026");
  EXPECT_EQ(check["drift_mm"], 0.0026) << "the drift is a magnitude";
  EXPECT_EQ(check["good"], false);
  EXPECT_EQ(watch_->next("change")["state"], "suspect");
  EXPECT_EQ(reading(before["seq"])["state"], "kept");
  for (const json& held : {second, third}) {
    EXPECT_EQ(reading(held["seq"])["state"], "suspect");
    EXPECT_EQ(doubts_of(reading(held["seq"])), "drift");
  }
  long drifts = 0;
  for (const json& alert : asked({"alerts"})) drifts += alert["what"] == "drift" ? 1 : 0;
  EXPECT_EQ(drifts, 1);
}

TEST_F(Comparator, ADriftReachesAcrossEngines) {
  engine(inline_four, "E2");
  done({"engine", "use", "E1"});
  master("86.000", "0.000");
  const json one = at_bore("1", "0.010");
  done({"engine", "use", "E2"});
  const json two = at_bore("1", "0.012");
  recheck("0.010");
  EXPECT_EQ(doubts_of(reading(one["seq"], "E1")), "drift");
  EXPECT_EQ(doubts_of(reading(two["seq"], "E2")), "drift");
}

TEST_F(Comparator, TheSameMasterAgainIsComparedFirstAndSetsTheZeroAnew) {
  master("86.000", "0.000");
  const json first = at_bore("1", "0.010");
  json setting = master("86 mm", "0.002");
  EXPECT_EQ(setting["drift_mm"], 0.002);
  EXPECT_EQ(setting["good"], true);
  EXPECT_EQ(reading(first["seq"])["closed"], true);
  const json second = at_bore("2", "0.010");
  EXPECT_EQ(second["size_mm"], 86.008);
  setting = master("86.000", "0.009");
  EXPECT_EQ(setting["good"], false);
  EXPECT_EQ(doubts_of(reading(second["seq"])), "drift");
  EXPECT_EQ(reading(first["seq"])["state"], "kept");
  EXPECT_EQ(at_bore("3", "0.010")["size_mm"], 86.001);
}

TEST_F(Comparator, AnotherMasterIsNoCheck) {
  master("86.000", "0.000");
  const json first = at_bore("1", "0.010");
  master("86.020", "0.400");
  EXPECT_EQ(reading(first["seq"])["state"], "kept");
  EXPECT_EQ(reading(first["seq"])["closed"], false);
  EXPECT_EQ(at_bore("2", "0.395")["size_mm"], 86.015);
}

TEST_F(Comparator, TheDriftLimitIsTheGauges) {
  gauge("fine", {"--unit", "mm", "--reads", "deviation", "--drift", "0.5 um"});
  done({"master", "fine", "86"});
  cable("fine").send(line("0"));
  watch_->next("setting");
  const json first = press_at({"bore", "1", "top", "pin"}, "fine", line("0.010"));
  done({"recheck", "fine"});
  cable("fine").send(line("0.0006"));
  EXPECT_EQ(watch_->next("setting")["good"], false);
  EXPECT_EQ(doubts_of(reading(first["seq"])), "drift");
}

TEST_F(Comparator, AChoiceOfPlaceEndsTheWaiting) {
  master("86.000", "0.000");
  for (const Words& words : {Words{"at", "bore", "1", "top", "pin"}, {"round", "bore"}}) {
    done({"master", "dial", "90.000"});
    const Ran said = tenth(words);
    EXPECT_EQ(said.status, 0) << said.err;
    EXPECT_NE((said.out + said.err).find("dial"), std::string::npos)
        << "it says that the waiting is over: " << said.out;
    EXPECT_EQ(press("dial", line("0.010"))["size_mm"], 86.010);
  }
}

TEST_F(Comparator, OnlyTheNextFrameOfThatGaugeIsTheSetting) {
  gauge("bg", {"--unit", "mm"});
  done({"at", "bore", "1", "top", "pin"});
  done({"master", "dial", "86.000"});
  EXPECT_EQ(press("bg", line("86.010"))["state"], "kept");
  cable("dial").send("damaged\r");
  watch_->next("fault");
  std::this_thread::sleep_for(Millis(260));  // a burst ends with a pause of 200 ms
  cable("dial").send(line("0.000"));
  EXPECT_EQ(watch_->next("setting")["shown_mm"], 0);
}

TEST_F(Comparator, ASettingWithDamagedBytesBehindItCountsNoMore) {
  const json set = master("86.000", "0.000");
  cable("dial").send("damaged\r");
  const json told = watch_->next("setting");
  EXPECT_EQ(told["seq"], set["seq"]);
  EXPECT_EQ(told["state"], "void");
  std::this_thread::sleep_for(Millis(260));  // a burst ends with a pause of 200 ms
  EXPECT_EQ(doubts_of(at_bore("1", "0.010")), "no_setting");
}

TEST_F(Comparator, ARecheckWithoutASettingIsRefused) {
  refused({"recheck", "dial"}, 4);
}

TEST_F(Comparator, AGaugeThatWentAwayHasAnOldSetting) {
  master("86.000", "0.000");
  watch_->forget();
  cable("dial").unplug();
  watch_->next("gauge", [](const json& event) { return event["state"] == "gone"; });
  cable("dial").plug();
  watch_->next("gauge", [](const json& event) { return event["state"] == "open"; });
  done({"round", "bore"});
  const json old = press("dial", line("0.010"));
  EXPECT_EQ(doubts_of(old), "setting_old");
  EXPECT_EQ(old["size_mm"], 86.010);
  master("86.000", "0.000");
  EXPECT_EQ(at_bore("1", "0.010")["state"], "kept");
}

}  // namespace
}  // namespace acceptance
