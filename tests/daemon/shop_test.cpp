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
    for (const Entry& entry : bench.last)
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

TEST_F(Shop, ACheckThatDoesNotApplySaysWhy) {
  done(at, {{"words", {"oil_ways_clear"}}});
  EXPECT_EQ(refused(enter, {{"value", "n/a"}}), "note");
  EXPECT_EQ(report()["checks"][0]["answer"], nullptr);
  done(enter, {{"value", "n/a"}, {"note", "no oil feed on this side"}});
  const Json check = report()["checks"][0];
  EXPECT_EQ(check["answer"], "n/a");
  EXPECT_EQ(check["note"], "no oil feed on this side");
  EXPECT_EQ(check["verdict"], nullptr);
}

TEST_F(Shop, TwoAnswersThatDifferAreNone) {
  done(at, {{"words", {"oil_ways_clear"}}});
  EXPECT_EQ(refused(enter, {{"value", "yes"}, {"again", "no"}}), "again");
  EXPECT_EQ(report()["checks"][0]["answer"], nullptr);
  done(enter, {{"value", "yes"}, {"again", "yes"}});
  EXPECT_EQ(report()["checks"][0]["answer"], "yes");
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
    const Entry& entry = bench.last.front();
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

}  // namespace
}  // namespace tenth
