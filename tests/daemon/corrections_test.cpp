#include <gtest/gtest.h>

#include "daemon/queries.hpp"
#include "rules/place.hpp"
#include "schema/wire/views.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Corrections : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("mic", {{"measures", "outside"}});
    bench.add_gauge("bore", {{"measures", "inside"}});
    ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston"}}}));
  }
  std::int64_t press(const std::string& number) {
    bench.press("mic", number);
    return bench.last_reading().seq;
  }
  const Reading& reading(std::int64_t seq) { return *find_reading(bench.bench, seq); }
  std::string code(const Result<Json>& answer) { return answer ? "done" : answer.error().code; }
  Workbench bench;
};

TEST_F(Corrections, UndoVoidsTheLastAndStandsThereAgain) {
  const auto seq = press("82.950");
  EXPECT_EQ(bench.standing(), "piston/2");
  ASSERT_TRUE(bench.act(undo, Json::object()));
  EXPECT_EQ(reading(seq).state, State::voided);
  EXPECT_EQ(bench.standing(), "piston/1");
  press("82.951");
  EXPECT_EQ(bench.standing(), "piston/2");
}

TEST_F(Corrections, UndoOfAGaugeLeavesTheOthersAlone) {
  const auto kept = press("82.950");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/pin"}}, {"gauge", "bore"}}));
  bench.press("bore", "83.010");
  const auto undone = bench.last_reading().seq;
  press("82.951");
  ASSERT_TRUE(bench.act(undo, {{"gauge", "bore"}}));
  EXPECT_EQ(reading(undone).state, State::voided);
  EXPECT_EQ(reading(kept).state, State::kept);
}

TEST_F(Corrections, UndoNeverStandsOnAnEngineThatIsNotInUse) {
  const auto seq = press("82.950");
  bench.add_engine("K2", kTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  ASSERT_TRUE(bench.act(undo, Json::object()));
  EXPECT_EQ(reading(seq).state, State::voided);
  EXPECT_EQ(bench.standing(), "none");
}

TEST_F(Corrections, NothingToUndoIsSaid) {
  EXPECT_EQ(code(bench.act(undo, Json::object())), "no_reading");
}

TEST_F(Corrections, AVoidNeedsAReasonAndHappensOnce) {
  const auto seq = press("82.950");
  EXPECT_EQ(code(bench.act(void_readings, {{"first", seq}})), "reason");
  EXPECT_EQ(code(bench.act(void_readings, {{"first", seq}, {"reason", "  "}})), "reason");
  ASSERT_TRUE(bench.act(void_readings, {{"first", seq}, {"reason", "burr"}}));
  EXPECT_EQ(reading(seq).reason, "burr");
  EXPECT_EQ(reading(seq).reason_by, "tester");
  EXPECT_EQ(reading(seq).reason_time, bench.last.front().body["time"].get<std::string>());
  EXPECT_EQ(code(bench.act(void_readings, {{"first", seq}, {"reason", "burr"}})), "void");
  ASSERT_TRUE(bench.act(keep_readings, {{"first", seq}, {"reason", "no burr after all"}}));
  EXPECT_EQ(reading(seq).state, State::kept);
}

TEST_F(Corrections, AVoidUncoversTheReadingBefore) {
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  press("82.950");
  const auto second = press("82.951");
  const auto counts = [&] { return counting(bench.bench.engines.at("K1")).at({"piston", 1, "", ""}).size; };
  EXPECT_EQ(counts(), Length::from_um(82'951));
  ASSERT_TRUE(bench.act(void_readings, {{"first", second}, {"reason", "slipped"}}));
  EXPECT_EQ(counts(), Length::from_um(82'950));
}

TEST_F(Corrections, KeepMovesTheRoundOnIfItStillStandsThere) {
  const auto seq = press("83.451");
  EXPECT_EQ(bench.standing(), "piston/1");
  ASSERT_TRUE(bench.act(keep_readings, {{"first", seq}, {"reason", "an oversize piston"}}));
  EXPECT_EQ(bench.standing(), "piston/2");
  EXPECT_EQ(reading(seq).state, State::kept);
  EXPECT_EQ(doubts(reading(seq)), "turn");  // what was doubted stays told
}

TEST_F(Corrections, WhatHasNoSizeOrPlaceCannotBeKept) {
  ASSERT_TRUE(bench.act(at_none, Json::object()));
  const auto placeless = press("82.950");
  EXPECT_EQ(code(bench.act(keep_readings, {{"first", placeless}, {"reason", "x"}})), "cannot_keep");
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/pin"}}}));
  const auto wrong_kind = press("83.010");
  EXPECT_EQ(code(bench.act(keep_readings, {{"first", wrong_kind}, {"reason", "x"}})), "cannot_keep");
}

TEST_F(Corrections, AMoveLaysARunAlongTheRoundAndJudgesAnew) {
  const auto first = press("82.950");
  const auto second = press("82.955");
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston"}}, {"again", true}}));
  const auto moved =
      bench.act(move_readings, {{"first", first}, {"last", second}, {"words", {"piston", "1"}}, {"reason", "x"}});
  ASSERT_TRUE(moved) << moved.error().message;
  EXPECT_EQ((*moved)["places"], Json::array({"piston/1", "piston/2"}));
  EXPECT_EQ(
      code(bench.act(move_readings, {{"first", first}, {"last", second}, {"words", {"piston", "2"}}, {"reason", "x"}})),
      "places");
  ASSERT_TRUE(
      bench.act(move_readings, {{"first", first}, {"words", {"main_journal", "1"}}, {"reason", "it was the journal"}}));
  EXPECT_EQ(doubts(reading(first)), "range turn");
  EXPECT_EQ(reading(first).state, State::suspect);
  EXPECT_EQ(slashed(*reading(first).moved_from, reading(first).moved_from_label), "piston/1");
}

/// Labels that are numbers in another order than the positions.
std::string crossed() {
  std::string spec = kTwin;
  return spec.insert(spec.find("cylinders = 2"), "labels = [\"2\", \"1\"]\n");
}

TEST_F(Corrections, EveryPlaceToldIsThePlaceWhenItIsTypedBack) {
  bench.add_engine("K2", crossed());
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  const Spec& spec = *bench.bench.engines.at("K2").spec;
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "2"}}}));
  ASSERT_EQ(bench.place().index, 1);
  const auto first = press("82.950");
  const auto moved =
      bench.act(move_readings, {{"first", first}, {"words", {"piston", "1"}}, {"reason", "the other one"}});
  ASSERT_TRUE(moved) << moved.error().message;
  ASSERT_TRUE(bench.act(at, {{"words", {(*moved)["places"][0]}}}));
  EXPECT_EQ(bench.place(), *reading(first).place);
  const Json told = reading_json(reading(first), true, false);
  ASSERT_TRUE(bench.act(at, {{"words", {told["moved_from"]}}}));
  EXPECT_EQ(bench.place(), *reading(first).moved_from);
  for (const Json& item : ready_json(bench.view(), bench.bench.engines.at("K2")))
    for (const Json& place : item["places"]) {
      ASSERT_TRUE(bench.act(at, {{"words", {place}}}));
      EXPECT_EQ(bench.place().index, item["index"]) << place;
    }
  press("829.50");
  const Cause& cause = bench.bench.alerts.back().cause;
  EXPECT_EQ(cause.subject, spoken(*bench.last_reading().place, spec));
  EXPECT_EQ(cause.text.find(cause.subject + ": "), 0U);
}

TEST_F(Corrections, AReadingWithoutAPlaceIsMovedToOneAndCounts) {
  ASSERT_TRUE(bench.act(at_none, Json::object()));
  const auto seq = press("82.950");
  ASSERT_TRUE(bench.act(move_readings, {{"first", seq}, {"words", {"piston", "2"}}, {"reason", "forgot to choose"}}));
  EXPECT_EQ(reading(seq).state, State::kept);
  EXPECT_TRUE(counting(bench.bench.engines.at("K1")).contains({"piston", 2, "", ""}));
}

TEST_F(Corrections, AMoveToWhereTheRoundStandsMovesItOn) {
  ASSERT_TRUE(bench.act(at_none, Json::object()));
  const auto seq = press("82.950");
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston"}}}));
  ASSERT_TRUE(bench.act(move_readings, {{"first", seq}, {"words", {"piston", "1"}}, {"reason", "forgot to choose"}}));
  EXPECT_EQ(bench.standing(), "piston/2");
}

TEST_F(Corrections, ADamagedReadingTakesTheRoundBack) {
  const auto seq = press("82.950");
  EXPECT_EQ(bench.standing(), "piston/2");
  Draft draft(bench.bench, {"tester", 0, "daemon"}, bench.now, "boot", bench.rules, bench.live);
  doubt_damaged(draft, {seq});
  EXPECT_EQ(bench.standing(), "piston/1");
}

TEST_F(Corrections, AReadingWithoutAnEngineIsAdopted) {
  Workbench bare;
  bare.add_gauge("mic", Json::object());
  bare.press("mic", "82.950");
  ASSERT_EQ(bare.bench.alerts.size(), 1U) << "held aloud";
  EXPECT_EQ(bare.bench.alerts.front().cause.subject, "no engine");
  EXPECT_EQ((*readings(bare.view(), {{"all", true}})).size(), 1U);
  EXPECT_EQ((*readings(bare.view(), Json::object())).size(), 0U);
  const auto seq = bare.last_reading().seq;
  bare.add_engine("K9", kTwin);
  ASSERT_TRUE(bare.act(move_readings,
                       {{"first", seq}, {"words", {"piston", "2"}}, {"reason", "taken before the engine was there"}}));
  EXPECT_EQ(find_reading(bare.bench, seq)->engine, "K9");
  EXPECT_TRUE(bare.bench.placeless.empty());
  EXPECT_EQ(bare.bench.alerts.front().state, AlertState::ended);
}

TEST_F(Corrections, NoSuchReading) {
  EXPECT_EQ(code(bench.act(keep_readings, {{"first", 9999}, {"reason", "x"}})), "no_reading");
  EXPECT_EQ(code(bench.act(keep_readings, {{"first", 5}, {"last", 2}, {"reason", "x"}})), "seq");
}

}  // namespace
}  // namespace tenth
