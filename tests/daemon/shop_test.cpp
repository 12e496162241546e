#include <gtest/gtest.h>

#include "daemon/events.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/queries.hpp"
#include "schema/wire/views.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

/// The twin, whose bores want plates and whose gaps say where they are measured.
std::string plated() {
  std::string spec = kTwin;
  const auto after = [&spec](const std::string& line, const std::string& more) {
    spec.insert(spec.find(line) + line.size(), more);
  };
  after("limits = [83.000, 83.035]\n", "setup = \"torque plates fitted\"\n");
  after("limits = [0.30, 0.45]\n", "fitted_in = \"bore\"\n");
  return spec;
}

class Shop : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", plated());
    bench.add_gauge("any", Json::object());
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
  std::string press_at(const std::vector<std::string>& words, const std::string& number) {
    done(at, {{"words", words}});
    bench.press("any", number);
    return std::string(name(bench.last_reading().state)) + " " + doubts(bench.last_reading());
  }
  Json report() { return check(bench.view(), {{"ready", true}}).value(); }
  Json send(const Json& more = Json::object()) {
    Json params = {{"features", {"main_journal"}}, {"to", "the crank grinder"}, {"ask", "grind and polish"}};
    params.update(more);
    return done(send_parts, params);
  }
  Workbench bench;
};

TEST_F(Shop, APartThatIsAwayCannotBeMeasured) {
  const Json sent = send({{"size", "59.74"}, {"within", "5 um"}});
  EXPECT_EQ(sent["size_mm"], 59.74);
  EXPECT_EQ(sent["within_mm"], 0.005);
  EXPECT_EQ(press_at({"main_journal", "1"}, "59.990"), "suspect away");
  EXPECT_EQ(press_at({"piston", "1"}, "82.950"), "kept ");
  const Json away = report()["away"];
  ASSERT_EQ(away.size(), 1u);
  EXPECT_EQ(away[0]["to"], "the crank grinder");
  EXPECT_EQ(away[0]["ask"], "grind and polish");
}

TEST_F(Shop, WhatComesBackIsHeldAgainstWhatWasAskedFor) {
  press_at({"main_journal", "1"}, "59.990");
  send({{"size", "59.985"}, {"within", "0.002"}});
  done(receive_parts, {{"features", {"main_journal"}}});
  EXPECT_EQ(report()["returned"][0]["verdict"], "incomplete");
  press_at({"main_journal", "1"}, "59.984");
  EXPECT_EQ(press_at({"main_journal", "1"}, "59.986"), "kept ");
  const Json back = report()["returned"][0];
  EXPECT_EQ(back["min_mm"], 59.985);  // two presses make one size
  EXPECT_EQ(back["verdict"], "in");
  EXPECT_EQ(back["from"], "the crank grinder");
}

TEST_F(Shop, SendingTwiceOrReceivingWhatIsHereIsRefused) {
  EXPECT_EQ(refused(receive_parts, {{"features", {"main_journal"}}}), "not_away");
  send();
  EXPECT_EQ(refused(send_parts, {{"features", {"main_journal"}}, {"to", "x"}, {"ask", "y"}}), "away");
  EXPECT_EQ(refused(send_parts, {{"features", {"oil_ways_clear"}}, {"to", "x"}, {"ask", "y"}}), "no_part");
  EXPECT_EQ(refused(send_parts, {{"features", {"piston"}}, {"to", "x"}, {"ask", "y"}, {"within", "1 um"}}), "within");
  EXPECT_EQ(refused(send_parts, {{"features", Json::array()}, {"to", "x"}, {"ask", "y"}}), "features");
}

TEST_F(Shop, AReadingTakenWhileItWasAwayMayBeKeptWithAReason) {
  send();
  press_at({"main_journal", "1"}, "59.990");
  const auto seq = bench.last_reading().seq;
  done(keep_readings, {{"first", seq}, {"reason", "measured at the grinder's"}});
  EXPECT_EQ(find_reading(bench.bench, seq)->state, State::kept);
}

TEST_F(Shop, SetupIsSaidOfTheStageThatStands) {
  for (const char* level : {"top", "bottom"})
    for (const char* axis : {"thrust", "pin"}) press_at({"bore", "1", level, axis}, "83.010");
  EXPECT_EQ(report()["features"][0]["verdict"], "incomplete");
  const Json said = done(setup_done, {{"feature", "bore"}, {"answer", "yes"}});
  EXPECT_EQ(said["setup"], "torque plates fitted");
  EXPECT_EQ(report()["features"][0]["verdict"], "in");
  EXPECT_EQ(bench.bench.choices.back().text, "bore: torque plates fitted");
  done(stage_begin, {{"name", "honed"}, {"features", {"bore"}}, {"carry", true}});
  EXPECT_EQ(report()["features"][0]["verdict"], "incomplete");
  EXPECT_EQ(refused(setup_done, {{"feature", "bore"}, {"answer", "no"}}), "answer");
}

TEST_F(Shop, WhatCanBeDoneNowNamesSetupAndWhatIsAway) {
  send();
  std::vector<std::string> acts, texts;
  const Json ready = report()["ready"];
  for (const Json& item : ready)
    if (item["act"] == "set_up" || item["act"] == "receive" || item["feature"] == "main_journal")
      texts.push_back(item["text"]);
  EXPECT_EQ(texts, (std::vector<std::string>{
                       "set up bore: torque plates fitted, then tenth setup bore yes",
                       "main_journal is at the crank grinder; when it is back: tenth receive main_journal"}));
}

TEST_F(Shop, EventsTellIt) {
  send();
  const auto sent = events_of(bench.bench, {bench.last[0].seq, bench.last[0].body, ""});
  EXPECT_EQ(sent[0]["event"], "send");
  EXPECT_EQ(sent[0]["size_mm"], nullptr);
  done(receive_parts, {{"features", {"main_journal"}}});
  EXPECT_EQ(events_of(bench.bench, {bench.last[0].seq, bench.last[0].body, ""})[0]["event"], "receive");
}

TEST_F(Shop, AGapTellsWhatIsLeftToFile) {
  press_at({"ring_gap", "1"}, "0.310");
  const auto told = [&] {
    for (const Pending& entry : bench.last)
      for (const Json& event : events_of(bench.bench, {entry.seq, entry.body, ""}))
        if (event["event"] == "reading") return event["to_file_mm"];
    return Json("none");
  };
  EXPECT_EQ(told(), 0.065);
  press_at({"ring_gap", "1"}, "0.400");
  EXPECT_EQ(told(), -0.025);
  press_at({"piston", "1"}, "82.950");
  EXPECT_EQ(told(), nullptr);
}

TEST_F(Shop, RestAnswersEveryIndexThatHasNone) {
  std::string spec = kTwin;
  spec.insert(spec.find("kind = \"check\""), "count = \"mains\"\n");
  bench.add_engine("K2", spec);
  done(engine_use, {{"name", "K2"}});
  done(at, {{"words", {"oil_ways_clear", "3"}}});
  done(enter, {{"value", "no"}});
  done(at, {{"words", {"oil_ways_clear", "1"}}});
  EXPECT_EQ(done(enter, {{"value", "yes"}, {"rest", true}, {"note", "air through all"}})["rest"], 1);
  const Json checks = report()["checks"];
  EXPECT_EQ(checks[0]["answer"], "yes");
  EXPECT_EQ(checks[1]["answer"], "yes");
  EXPECT_EQ(checks[1]["note"], "air through all");
  EXPECT_EQ(checks[2]["answer"], "no");
  done(at, {{"words", {"piston", "1"}}});
  EXPECT_EQ(refused(enter, {{"value", "82.950"}, {"again", "82.950"}, {"rest", true}}), "rest");
}

TEST_F(Shop, APedalSaysYesToTheCheckThatStands) {
  done(at, {{"words", {"oil_ways_clear"}}});
  done(answer_yes, Json::object());
  EXPECT_EQ(report()["checks"][0]["answer"], "yes");
  done(at, {{"words", {"piston", "1"}}});
  EXPECT_EQ(refused(answer_yes, Json::object()), "answer");
}

TEST_F(Shop, AFileIsNamedByItsDigest) {
  const std::string digest(64, 'a');
  EXPECT_EQ(done(attach_file, {{"file", "main-3.jpg"}, {"bytes", 12}, {"sha256", digest}})["engine"], "K1");
  EXPECT_EQ(bench.bench.choices.back().text, "attached: main-3.jpg, 12 bytes, SHA-256 " + digest);
  EXPECT_EQ(refused(attach_file, {{"file", "x"}, {"bytes", 12}, {"sha256", "12"}}), "sha256");
  EXPECT_EQ(refused(attach_file, {{"file", "x"}, {"sha256", digest}}), "bytes");
}

TEST_F(Shop, ARoundTellsHowLongItWillTakeAtThePaceSoFar) {
  done(round_begin, {{"features", {"bore"}}});
  for (const int seconds : {10, 10, 300, 12}) {  // a telephone call is no pace
    EXPECT_EQ(place_event(bench.bench, std::nullopt)["left_s"], nullptr);
    bench.pass(seconds);
    bench.press("any", "83.010");
    if (seconds == 300) break;
  }
  bench.pass(10);
  bench.press("any", "83.010");
  EXPECT_EQ(place_event(bench.bench, std::nullopt)["left_s"],
            44);  // 4 places, 11 s each: the workbench takes one for a press
}

TEST_F(Shop, ARoundThatIsThroughAsksForTheCheckOfItsGauge) {
  bench.add_gauge("dial", {{"reads", "deviation"}, {"measures", "gap"}});
  done(master, {{"gauge", "dial"}, {"size", "0.35"}});
  bench.press("dial", "0");
  done(round_begin, {{"features", {"ring_gap"}}});
  bench.press("dial", "0.010");
  EXPECT_EQ(place_event(bench.bench, std::nullopt)["recheck"], Json::array());
  bench.press("dial", "0.012");
  EXPECT_EQ(place_event(bench.bench, std::nullopt)["recheck"], Json::array({"dial"}));
  EXPECT_EQ(report()["unconfirmed"], Json::array({{{"gauge", "dial"}, {"readings", 2}}}));
  done(recheck, {{"gauge", "dial"}});
  bench.press("dial", "0.001");
  EXPECT_EQ(place_event(bench.bench, std::nullopt)["recheck"], Json::array());
  EXPECT_EQ(report()["unconfirmed"], Json::array());
}

TEST_F(Shop, ARoundBeginsWithTheGaugeThatIsNotSet) {
  bench.add_gauge("dial", {{"reads", "deviation"}, {"measures", "gap"}});
  EXPECT_EQ(done(round_begin, {{"features", {"ring_gap"}}})["to_set"], Json::array({"dial"}));
  EXPECT_EQ(done(round_begin, {{"features", {"bore"}}})["to_set"], Json::array());  // it measures no bores
  EXPECT_EQ(done(round_begin, {{"features", {"bore"}}, {"gauge", "dial"}})["to_set"], Json::array({"dial"}));
  done(master, {{"gauge", "dial"}, {"size", "0.35"}});
  bench.press("dial", "0");
  EXPECT_EQ(done(round_begin, {{"features", {"ring_gap"}}, {"gauge", "dial"}})["to_set"], Json::array());
}

TEST_F(Shop, TheSameNumberTwiceAtTwoPlacesIsAskedAbout) {
  const auto same = [&](const std::string& number) {
    bench.press("any", number);
    const Pending& entry = bench.last.front();
    return events_of(bench.bench, {entry.seq, entry.body, ""}).front()["same_as"];
  };
  done(round_begin, {{"features", {"bore"}}});
  EXPECT_EQ(same("83.010"), nullptr);
  const std::int64_t first = bench.last_reading().seq;
  EXPECT_EQ(same("83.010"), first);
  EXPECT_EQ(bench.last_reading().state, State::kept);  // asked, not guessed
  EXPECT_EQ(same("83.011"), nullptr);
  bench.pass(5);
  EXPECT_EQ(same("83.011"), nullptr);  // time enough to move the gauge
}

TEST_F(Shop, AllIsAWordForEveryFeature) {
  EXPECT_EQ(done(round_begin, {{"features", {"all"}}})["of"], 8 + 2 + 3 + 2 + 1);
}

class Import : public Shop {
 protected:
  Json import(const std::string& rows, const Json& more = Json::object()) {
    Json params = {{"file", "old.csv"}, {"text", "feature,index,level,axis,value,operator,gauge,time\n" + rows}};
    params.update(more);
    return done(import_table, params);
  }
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

}  // namespace
}  // namespace tenth
