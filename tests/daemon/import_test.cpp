#include <gtest/gtest.h>

#include "daemon/queries.hpp"
#include "schema/import/import_file.hpp"
#include "schema/wire/views.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Import : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("any", Json::object());
  }
  static Json table(const std::string& rows) {
    return {{"file", "/home/ann/old.csv"}, {"text", "feature,index,level,axis,value,operator,gauge,time\n" + rows}};
  }
  Json done(Decided (*what)(Draft&, const Json&), const Json& params) {
    const auto answer = bench.act(what, params);
    EXPECT_TRUE(answer) << answer.error().message;
    return answer ? *answer : Json();
  }
  std::string refused(Decided (*what)(Draft&, const Json&), const Json& params) {
    const auto answer = bench.act(what, params);
    return answer ? "" : answer.error().code;
  }
  Json import(const std::string& rows, const Json& more = Json::object()) {
    Json params = table(rows);
    params.update(more);
    return done(import_table, params);
  }
  void press_at(const std::vector<std::string>& words, const std::string& number) {
    done(at, {{"words", words}});
    bench.press("any", number);
  }
  const Reading& row(const Json& answer, std::size_t n) { return *find_reading(bench.bench, answer["seqs"][n]); }
  Json report() { return check(bench.view(), {{"ready", true}}).value(); }
  Workbench bench;
};

TEST_F(Import, RowsAreReadingsOfTheTable) {
  const Json answer = import("piston,1,,,82.950,bo,old mic,2019-05-04\npiston,2,,,82.99,,,\n");
  EXPECT_EQ(answer["kept"], 2);
  EXPECT_EQ(answer["sha256"].get<std::string>().size(), 64u);
  const Json reading = reading_json(*find_reading(bench.bench, answer["seqs"][0]), true, false);
  EXPECT_EQ(reading["source"], "import");
  EXPECT_EQ(reading["operator"], "bo");
  EXPECT_EQ(reading["gauge"], "old mic");
  EXPECT_EQ(reading["measured_at"], "2019-05-04");
  EXPECT_EQ(reading["state"], "kept");
  EXPECT_EQ(report()["features"][3]["verdict"], "out");  // piston 2
}

TEST_F(Import, WhatLooksWrongIsSuspectAsAlways) {
  const Json answer = import("piston,1,,,829.50,,,\npiston,2,,,82.950,,,\npiston,2,,,82.990,,,\n");
  EXPECT_EQ(answer["suspect"], 2);
  EXPECT_EQ(doubts(*find_reading(bench.bench, answer["seqs"][0])), "range tenfold turn");
  EXPECT_EQ(doubts(*find_reading(bench.bench, answer["seqs"][2])), "repeat");
}

TEST_F(Import, ClaimsAreShownAndNeverJudged) {
  const Json answer = import("piston,1,,,82.990,,,\n", {{"claimed_by", "the other shop"}});
  EXPECT_EQ(answer["claimed"], 1);
  EXPECT_EQ(report()["features"][2]["readings"], 0);
  const std::int64_t seq = answer["seqs"][0];
  EXPECT_EQ(reading_json(*find_reading(bench.bench, seq), false, false)["claimed_by"], "the other shop");
  EXPECT_EQ(refused(keep_readings, {{"first", seq}, {"reason", "they are right"}}), "claimed");
  done(move_readings, {{"first", seq}, {"words", {"piston", "2"}}, {"reason", "their 2"}});
  EXPECT_EQ(find_reading(bench.bench, seq)->state, State::claimed);
  press_at({"piston", "2"}, "82.950");
  bool told = false;
  for (const Alert& alert : bench.bench.alerts)
    told = told || (alert.cause.what == AlertWhat::claim && alert.cause.subject == "piston 2");
  EXPECT_TRUE(told);
}

TEST_F(Import, APreviewStoresNothing) {
  const auto before = bench.bench.seq;
  const Json answer = import("piston,1,,,82.950,,,\n", {{"preview", true}});
  EXPECT_EQ(answer["rows"][0]["place"], "piston/1");
  EXPECT_EQ(answer["import"], nullptr);
  EXPECT_EQ(bench.bench.seq, before);
}

TEST_F(Import, OneWrongRowAndNoneIsTaken) {
  const auto before = bench.bench.seq;
  EXPECT_EQ(
      refused(import_table, {{"file", "old.csv"}, {"text", "feature,index,value\npiston,1,82.950\npiston,3,82.950\n"}}),
      "import");
  EXPECT_EQ(bench.bench.seq, before);
}

TEST_F(Import, TheShopsGaugeTellsItsKindAndUncertainty) {
  bench.add_gauge("mic", {{"measures", "outside"}, {"uncertainty", "0.003"}});
  const Json answer = import("piston,1,,,82.950,,mic,\nbore,1,top,pin,83.01,,mic,\n");
  EXPECT_EQ(find_reading(bench.bench, answer["seqs"][0])->uncertainty, Length::from_um(3));
  EXPECT_EQ(doubts(*find_reading(bench.bench, answer["seqs"][1])), "wrong_kind");
}

TEST_F(Import, TheLedgerNamesTheFileWithoutItsFolder) {
  import("piston,1,,,82.950,,,\n");
  ASSERT_EQ(bench.last.front().body["kind"], "import");
  EXPECT_EQ(bench.last.front().body["file"], "old.csv");
}

TEST_F(Import, TheSameTableTwiceIsRefusedUntilItsRowsAreVoid) {
  const std::string rows = "piston,1,,,82.950,,,\npiston,2,,,82.951,,,\n";
  const Json first = import(rows);
  EXPECT_EQ(refused(import_table, table(rows)), "imported");
  EXPECT_TRUE(import(rows, {{"preview", true}})["import"].is_null());
  done(void_readings, {{"first", first["seqs"][0]}, {"last", first["seqs"][1]}, {"reason", "the wrong engine"}});
  EXPECT_EQ(import(rows)["kept"], 2);
  EXPECT_EQ(refused(import_table, table(rows)), "imported");
  import(rows + "\n");  // another table
}

TEST_F(Import, WhatIsStillToComeWasNotMeasured) {  // it is 2027-01-15T08:00:00Z here
  EXPECT_EQ(refused(import_table, table("piston,1,,,82.950,,,2027-01-15T08:00:01Z\n")), "import");
  EXPECT_EQ(refused(import_table, table("piston,1,,,82.950,,,2199-01-01\n")), "import");
  EXPECT_EQ(import("piston,1,,,82.950,,,2027-01-15T08:00:00Z\npiston,2,,,82.950,,,2027-01-15\n")["kept"], 2);
}

TEST_F(Import, UndoPassesOverTables) {
  press_at({"piston", "1"}, "82.950");
  const std::int64_t pressed = bench.last_reading().seq;
  const Json answer = import("piston,2,,,82.951,,,\n");
  done(undo, Json::object());
  EXPECT_EQ(find_reading(bench.bench, pressed)->state, State::voided);
  EXPECT_EQ(row(answer, 0).state, State::kept);
}

TEST_F(Import, ADriftOfTodayDoubtsNoRowOfATable) {
  bench.add_gauge("mic", {{"measures", "outside"}});
  done(master, {{"gauge", "mic"}, {"size", "83 mm"}});
  bench.press("mic", "83.000");
  const Json answer = import("piston,1,,,82.950,,mic,2024-05-01\n");
  done(recheck, {{"gauge", "mic"}});
  bench.press("mic", "83.010");
  EXPECT_EQ(doubts(row(answer, 0)), "");
}

TEST_F(Import, AGaugeInDoubtTakesRowsByTheTimeOfTheTableAndNoClaims) {
  bench.add_gauge("mic", {{"measures", "outside"}});
  const Json own = import("piston,1,,,82.950,,mic,2024-05-01\npiston,2,,,82.950,,mic,2026-11-01\n");
  const Json claim = import("piston,2,,,82.951,,mic,2026-11-02\n", {{"claimed_by", "the other shop"}});
  done(gauge_doubt, {{"name", "mic"}, {"since", "2026-01-01T00:00:00Z"}, {"reason", "it fell"}});
  EXPECT_EQ(doubts(row(own, 0)), "");
  EXPECT_EQ(doubts(row(own, 1)), "gauge");
  EXPECT_EQ(doubts(row(claim, 0)), "");
}

TEST_F(Import, ANoteGoesWithItsReading) {
  const Json answer =
      done(import_table, {{"file", "old.csv"}, {"text", "feature,index,value,note\npiston,1,82.95,warm\n"}});
  EXPECT_EQ(reading_json(row(answer, 0), true, false)["note"], "warm");
}

}  // namespace
}  // namespace tenth
