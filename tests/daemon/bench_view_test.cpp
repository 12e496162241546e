#include "daemon/bench_view.hpp"

#include <gtest/gtest.h>

#include "daemon/queries.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class BenchView : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("bore", {{"measures", "inside"}});
    bench.add_gauge("mic", {{"measures", "outside"}});
  }
  Json seen() { return bench_now(bench.view(), Json::object()).value(); }
  void at_place(const std::string& place) { ASSERT_TRUE(bench.act(at, {{"words", {place}}})); }
  void press_at(const std::string& place, const std::string& gauge, const std::string& number) {
    at_place(place);
    bench.press(gauge, number);
  }
  /// The plan's index of a feature, by position.
  Json index(const std::string& feature, std::size_t position) {
    const Json plan = seen()["plan"];
    for (const Json& each : plan)
      if (each["feature"] == feature) return each["indexes"].at(position - 1);
    return nullptr;
  }
  Workbench bench;
};

TEST_F(BenchView, WithoutAnEngineThereIsNothingToDraw) {
  const Workbench empty;
  const Json json = bench_now(empty.view(), Json::object()).value();
  EXPECT_EQ(json["engine"], nullptr);
  EXPECT_EQ(json["layout"], nullptr);
  EXPECT_EQ(json["plan"], Json::array());
  EXPECT_EQ(json["last"], Json::array());
  ASSERT_EQ(json["places"].size(), 1);
  EXPECT_EQ(json["places"][0]["words"], nullptr);
}

TEST_F(BenchView, APlaceSaysItsWordsAndWhatComesNext) {
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"main_journal"}}}));
  Json place = seen()["places"][0];
  EXPECT_EQ(place["words"], "main journal 1");
  EXPECT_EQ(place["next"], "main journal 2");
  EXPECT_EQ(place["done"], 0);
  EXPECT_EQ(place["of"], 3);
  ASSERT_TRUE(bench.act(round_next, Json::object()));
  ASSERT_TRUE(bench.act(round_next, Json::object()));
  place = seen()["places"][0];
  EXPECT_EQ(place["words"], "main journal 3");
  EXPECT_EQ(place["next"], nullptr);
}

TEST_F(BenchView, WhatComesNextIsNoPlaceThatIsMeasured) {
  press_at("bore/1/top/pin", "bore", "83.010");
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"bore"}}}));
  EXPECT_EQ(seen()["places"][0]["next"], "bore 1 bottom thrust");
}

TEST_F(BenchView, AGaugesOwnPlaceStandsBesideTheCommonOne) {
  at_place("bore/1/top/thrust");
  ASSERT_TRUE(bench.act(at, {{"words", {"piston/2"}}, {"gauge", "mic"}}));
  const Json places = seen()["places"];
  ASSERT_EQ(places.size(), 2);
  EXPECT_EQ(places[0]["gauge"], nullptr);
  EXPECT_EQ(places[0]["words"], "bore 1 top thrust");
  EXPECT_EQ(places[1]["gauge"], "mic");
  EXPECT_EQ(places[1]["words"], "piston 2");
  EXPECT_EQ(places[1]["next"], nullptr);
}

TEST_F(BenchView, TheLastReadingIsHeldAgainstItsLimits) {
  press_at("bore/1/top/thrust", "bore", "83.03050");
  const Json last = seen()["last"].at(0);
  EXPECT_EQ(last["words"], "bore 1 top thrust");
  EXPECT_EQ(canonical(last["low_mm"]), "83");
  EXPECT_EQ(canonical(last["high_mm"]), "83.035");
  EXPECT_EQ(last["shown"], (Json{{"size", "83.0305"}, {"low", "83.0000"}, {"high", "83.0350"}, {"target", nullptr}}));
  EXPECT_EQ(last["against"], "0.0045 mm under the upper limit");
  EXPECT_EQ(last["size_verdict"], "in");
  EXPECT_EQ(last["verdict"], "incomplete");
  EXPECT_EQ(last["counts"], true);
}

TEST_F(BenchView, ASizeThatIsOutIsOutBeforeItsFeatureIsWhole) {
  press_at("bore/1/top/thrust", "bore", "82.995");
  const Json last = seen()["last"].at(0);
  EXPECT_EQ(last["size_verdict"], "out");
  EXPECT_EQ(last["against"], "0.005 mm under the lower limit");
  EXPECT_EQ(index("bore", 1)["state"], "out");
}

TEST_F(BenchView, TheTargetIsASizeWhereItsMateIsMeasured) {
  press_at("bore/1/top/thrust", "bore", "83.010");
  press_at("bore/1/top/pin", "bore", "83.010");
  press_at("bore/1/bottom/thrust", "bore", "83.010");
  EXPECT_EQ(seen()["last"][0]["target_mm"], nullptr);
  press_at("piston/1", "mic", "82.955");  // 0.055 of clearance: 0.005 to go
  EXPECT_EQ(canonical(seen()["last"][0]["target_mm"]), "82.95");
}

TEST_F(BenchView, EachGaugeHasItsLastReadingNewestFirst) {
  press_at("bore/1/top/thrust", "bore", "83.010");
  press_at("piston/1", "mic", "82.950");
  press_at("bore/2/top/thrust", "bore", "83.012");
  const Json last = seen()["last"];
  ASSERT_EQ(last.size(), 2);
  EXPECT_EQ(last[0]["gauge"], "bore");
  EXPECT_EQ(canonical(last[0]["size_mm"]), "83.012");
  EXPECT_EQ(last[1]["gauge"], "mic");
}

TEST_F(BenchView, AnUndoneReadingIsShownAsVoid) {
  press_at("bore/1/top/thrust", "bore", "83.010");
  ASSERT_TRUE(bench.act(undo, Json::object()));
  EXPECT_EQ(seen()["last"].at(0)["state"], "void");
  EXPECT_EQ(index("bore", 1)["state"], "unread");
}

TEST_F(BenchView, ASuspectReadingSaysWhyAndMarksItsPlace) {
  press_at("bore/1/top/thrust", "bore", "830.10");
  const Json seen_now = seen();
  const Json last = seen_now["last"].at(0);
  EXPECT_EQ(last["state"], "suspect");
  ASSERT_EQ(last["why"].size(), last["doubts"].size());
  EXPECT_EQ(last["why"][1], "the decimal point may have slipped");
  EXPECT_EQ(seen_now["suspects"], 1);
  EXPECT_EQ(index("bore", 1)["state"], "suspect");
  EXPECT_EQ(index("bore", 1)["places"][0]["state"], "suspect");
  EXPECT_EQ(seen_now["alerts"].at(0)["what"], "suspect");
}

TEST_F(BenchView, ASuspectReadingOfAnEarlierStageMarksNothing) {
  press_at("bore/1/top/thrust", "bore", "830.10");
  ASSERT_TRUE(bench.act(stage_begin, {{"name", "honed"}, {"features", {"bore"}}}));
  EXPECT_EQ(index("bore", 1)["state"], "unread");
}

TEST_F(BenchView, AReadingWithoutAPlaceIsShownAsRead) {
  bench.press("bore", "83.010");
  const Json seen_now = seen();
  EXPECT_EQ(seen_now["suspects"], 1);
  const Json last = seen_now["last"].at(0);
  EXPECT_EQ(last["words"], nullptr);
  EXPECT_EQ(last["against"], nullptr);
  EXPECT_EQ(last["shown"]["size"], "83.010");
}

TEST_F(BenchView, ThePlanFillsUp) {
  EXPECT_EQ(index("bore", 1)["state"], "unread");
  press_at("bore/1/top/thrust", "bore", "83.010");
  EXPECT_EQ(index("bore", 1)["state"], "part");
  for (const char* place : {"bore/1/top/pin", "bore/1/bottom/thrust", "bore/1/bottom/pin"})
    press_at(place, "bore", "83.010");
  EXPECT_EQ(index("bore", 1)["state"], "in");
  EXPECT_EQ(index("bore", 2)["state"], "unread");
  EXPECT_EQ(index("bore", 1)["places"][3], (Json{{"level", "bottom"}, {"axis", "pin"}, {"state", "read"}}));
}

TEST_F(BenchView, APlaceThatWantsTwoPressesIsReadAfterTheSecond) {
  press_at("main_journal/1", "mic", "59.990");
  EXPECT_EQ(index("main_journal", 1)["state"], "unread");
  bench.press("mic", "59.991");
  EXPECT_EQ(index("main_journal", 1)["state"], "in");
}

TEST_F(BenchView, APartThatIsAwayIsSaidToBeAndWhere) {
  EXPECT_EQ(seen()["away"], Json::array());
  ASSERT_TRUE(bench.act(send_parts, {{"features", {"main_journal"}}, {"to", "the grinder"}, {"ask", "polish"}}));
  const Json away = seen()["away"];
  ASSERT_EQ(away.size(), 1);
  EXPECT_EQ(away[0]["feature"], "main_journal");
  EXPECT_EQ(away[0]["to"], "the grinder");
  ASSERT_TRUE(bench.act(receive_parts, {{"features", {"main_journal"}}}));
  EXPECT_EQ(seen()["away"], Json::array());
}

TEST_F(BenchView, WhatIsStillToBeDoneBeforeAFeatureCountsIsInThePlan) {
  std::string spec = kTwin;
  spec.insert(spec.find("out_of_round"), "setup = \"torque plates fitted\"\n");
  bench.add_engine("K2", spec);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  EXPECT_EQ(seen()["plan"][0]["setup"], "torque plates fitted");
  EXPECT_EQ(seen()["plan"][1]["setup"], nullptr);
  ASSERT_TRUE(bench.act(setup_done, {{"feature", "bore"}, {"answer", "yes"}}));
  EXPECT_EQ(seen()["plan"][0]["setup"], nullptr);
}

TEST_F(BenchView, AClaimedPlaceIsNeitherReadNorUnread) {
  const std::string table = "feature,index,value\npiston,1,82.950\n";
  ASSERT_TRUE(bench.act(import_table, {{"file", "f"}, {"text", table}, {"claimed_by", "the other shop"}}));
  EXPECT_EQ(index("piston", 1)["state"], "claimed");
  EXPECT_EQ(index("piston", 1)["places"][0]["state"], "claimed");
  EXPECT_EQ(index("piston", 2)["state"], "unread");
  EXPECT_EQ(seen()["plan"][1]["claimed_by"], Json::array({"the other shop"}));
  press_at("piston/1", "mic", "82.951");
  EXPECT_EQ(index("piston", 1)["state"], "in");
  EXPECT_EQ(seen()["plan"][1]["claimed_by"], Json::array());
}

TEST_F(BenchView, WhatNoCheckOfItsGaugeConfirmsIsMarked) {
  bench.add_gauge("dial", {{"reads", "deviation"}, {"measures", "outside"}});
  press_at("piston/1", "mic", "82.950");
  ASSERT_TRUE(bench.act(master, {{"gauge", "dial"}, {"size", "82.95"}}));
  bench.press("dial", "0");
  press_at("piston/2", "dial", "0.001");
  EXPECT_EQ(index("piston", 1)["unconfirmed"], false);
  EXPECT_EQ(index("piston", 2)["unconfirmed"], true);
  EXPECT_EQ(seen()["unconfirmed"], Json::array({{{"gauge", "dial"}, {"readings", 1}}}));
  ASSERT_TRUE(bench.act(recheck, {{"gauge", "dial"}}));
  bench.press("dial", "0");
  EXPECT_EQ(index("piston", 2)["unconfirmed"], false);
}

TEST_F(BenchView, AnswersFillTheirPlacesToo) {
  at_place("oil_ways_clear");
  ASSERT_TRUE(bench.act(enter, {{"value", "later"}}));
  EXPECT_EQ(index("oil_ways_clear", 1)["state"], "part");
  ASSERT_TRUE(bench.act(enter, {{"value", "no"}}));
  EXPECT_EQ(index("oil_ways_clear", 1)["state"], "out");
  ASSERT_TRUE(bench.act(enter, {{"value", "yes"}}));
  EXPECT_EQ(index("oil_ways_clear", 1)["state"], "in");
  EXPECT_EQ(index("oil_ways_clear", 1)["places"][0]["state"], "read");
}

TEST_F(BenchView, TheLayoutIsThatOfTheSpec) {
  const Json layout = seen()["layout"];
  EXPECT_EQ(layout["cylinders"], 2);
  EXPECT_EQ(layout["mains"], 3);
  EXPECT_EQ(layout["crankpins"], nullptr);
  EXPECT_EQ(layout["labels"], (Json{"1", "2"}));
  EXPECT_EQ(seen()["plan"][0]["count"], "cylinders");
}

}  // namespace
}  // namespace tenth
