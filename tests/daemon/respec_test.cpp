#include <gtest/gtest.h>

#include "daemon/events.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/queries.hpp"
#include "rules/place.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

/// The twin's spec with one text put in place of another.
std::string with(const std::string& text, const std::string& instead, std::string spec = kTwin) {
  const auto found = spec.find(text);
  EXPECT_NE(found, std::string::npos) << text;
  return found == std::string::npos ? spec : spec.replace(found, text.size(), instead);
}

class Respec : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("any", Json::object());
  }
  Result<Json> respec(const std::string& text, const std::string& reason = "the maker wrote") {
    return bench.act(engine_respec, {{"name", "K1"}, {"file", "k1b.toml"}, {"text", text}, {"reason", reason}});
  }
  std::int64_t press_at(const std::vector<std::string>& words, const std::string& number) {
    EXPECT_TRUE(bench.act(at, {{"words", words}}));
    bench.press("any", number);
    return bench.last_reading().seq;
  }
  std::string here(const std::optional<std::string>& gauge = std::nullopt) { return bench.standing(gauge); }
  const Engine& engine() { return bench.bench.engines.at("K1"); }
  Workbench bench;
};

const std::string kOneLevel = with(R"(levels = ["top", "bottom"])", R"(levels = ["top"])");

TEST_F(Respec, StoresTheWholeTextAndResultsNameIt) {
  const std::int64_t before = engine().spec_seq;
  const std::string text = with("0.45", "0.50");
  const auto answer = respec(text);
  ASSERT_TRUE(answer) << answer.error().message;
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"spec"});
  EXPECT_EQ(bench.last.front().body["text"], text);
  EXPECT_EQ(bench.last.front().body["reason"], "the maker wrote");
  EXPECT_EQ(bench.last.front().body["previous"], before);
  EXPECT_EQ(answer->at("previous"), before);
  EXPECT_EQ((*answer)["changes"], Json::parse(R"([{"of": "feature", "name": "ring_gap", "key": "limits",
                                                  "from": "0.3 mm to 0.45 mm", "to": "0.3 mm to 0.5 mm"}])"));
  EXPECT_EQ(check(bench.view(), Json::object())->at("spec"), answer->at("spec"));
  press_at({"ring_gap", "1"}, "0.40");
  EXPECT_EQ(bench.last.front().body["spec"], answer->at("spec"));
}

TEST_F(Respec, NeedsAReasonAnEngineAndASpecWithoutErrors) {
  EXPECT_EQ(respec(kTwin, " ").error().exit, Exit::words);
  EXPECT_EQ(bench.act(engine_respec, {{"name", "K2"}, {"file", "f"}, {"text", kTwin}, {"reason", "x"}}).error().code,
            "unknown_engine");
  const auto wrong = respec(with("unit = \"mm\"", "unit = \"cubit\""));
  EXPECT_EQ(wrong.error().exit, Exit::refused);
  EXPECT_NE(wrong.error().message.find("k1b.toml:3:"), std::string::npos) << wrong.error().message;
}

TEST_F(Respec, IsRefusedWhereAPlaceWithReadingsWouldVanish) {
  const auto seq = press_at({"bore", "2", "bottom", "pin"}, "83.010");
  ASSERT_TRUE(bench.act(void_readings, {{"first", seq}, {"reason", "burr"}}));
  const auto refused = respec(kOneLevel);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "place_vanishes");
  EXPECT_EQ(refused.error().exit, Exit::refused);
  EXPECT_NE(refused.error().message.find("bore 2 bottom pin"), std::string::npos) << refused.error().message;
  EXPECT_EQ(engine().spec->find("bore")->levels.size(), 2U);
}

TEST_F(Respec, LooksAtAlertsAnewInTheSameAct) {
  press_at({"ring_gap", "1"}, "0.47");
  ASSERT_EQ(bench.bench.alerts.size(), 1U);
  ASSERT_TRUE(respec(with("0.45", "0.50")));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"spec", "alert_end"}));
  ASSERT_TRUE(respec(kTwin));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"spec", "alert"}));
}

TEST_F(Respec, ARoundGoesOnWithoutThePlacesThatWent) {
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston", "bore"}}}));
  for (int n = 0; n < 2; ++n) bench.press("any", "82.950");
  for (int n = 0; n < 2; ++n) bench.press("any", "83.010");
  EXPECT_EQ(here(), "bore/1/bottom/thrust");
  ASSERT_TRUE(respec(kOneLevel));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"spec", "place"}));
  EXPECT_EQ(here(), "bore/2/top/thrust");
  const Json place = place_event(bench.bench, std::nullopt);
  EXPECT_EQ(place["done"], 4);
  EXPECT_EQ(place["of"], 6);
  for (int n = 0; n < 2; ++n) bench.press("any", "83.010");
  EXPECT_EQ(here(), "none");
}

TEST_F(Respec, ARoundThatStandsBehindThemKeepsItsPlace) {
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"ring_gap", "bore"}}, {"again", true}}));
  ASSERT_TRUE(bench.act(round_next, Json::object()));
  const std::string fewer = with("[feature.ring_gap]\ncount = \"cylinders\"\n", "[feature.ring_gap]\n");
  ASSERT_TRUE(bench.act(round_next, Json::object()));
  EXPECT_EQ(here(), "bore/1/top/thrust");
  ASSERT_TRUE(respec(fewer));
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"spec"});
  EXPECT_EQ(here(), "bore/1/top/thrust");
  bench.press("any", "83.010");
  EXPECT_EQ(here(), "bore/1/top/pin");
}

TEST_F(Respec, WhoStandsAtAPlaceThatWentStandsNowhere) {
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/bottom/pin"}}, {"gauge", "any"}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/top/pin"}}}));
  ASSERT_TRUE(respec(kOneLevel));
  EXPECT_EQ(here("any"), "none");
  EXPECT_EQ(here(), "bore/1/top/pin");
  bench.press("any", "83.010");
  EXPECT_EQ(doubts(bench.last_reading()), "no_place");
}

TEST_F(Respec, OtherEnginesStandWhereTheyStood) {
  bench.add_engine("K2", kTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/bottom/pin"}}}));
  ASSERT_TRUE(respec(kOneLevel));
  EXPECT_EQ(here(), "bore/1/bottom/pin");
}

TEST_F(Respec, IsRefusedWhereAPlannedStudyWouldLosePlaces) {
  for (const char* name : {"ann", "bo"}) ASSERT_TRUE(bench.act(operator_add, {{"name", name}}));
  const auto planned = bench.act(study_plan, {{"name", "s1"},
                                              {"gauge", "any"},
                                              {"feature", "bore"},
                                              {"parts", 8},
                                              {"operators", {"ann", "bo"}},
                                              {"trials", 2}});
  ASSERT_TRUE(planned) << planned.error().message;
  EXPECT_EQ(respec(kOneLevel).error().code, "place_vanishes");
  EXPECT_TRUE(respec(with("0.45", "0.50")));
}

TEST_F(Respec, AFrameFromBeforeHasNoPlaceThere) {
  ASSERT_TRUE(bench.act(at, {{"words", {"bore/1/bottom/pin"}}}));
  Frame frame;
  frame.gauge = "any";
  frame.measurement = {"83.010", "83.010", Length::from_um(83'010), Unit::mm, true};
  frame.before = Before{bench.bench.common, std::nullopt};
  ASSERT_TRUE(respec(kOneLevel));
  bench.press(std::move(frame));
  EXPECT_EQ(doubts(bench.last_reading()), "no_place");
  EXPECT_EQ(bench.last_reading().engine, "K1");
}

TEST_F(Respec, ReadingsStayAtTheirPositionsUnderTheNewLabels) {
  const auto seq = press_at({"ring_gap", "1"}, "0.40");
  ASSERT_TRUE(respec(with("cylinders = 2", "cylinders = 2\nlabels = [\"L1\", \"R1\"]")));
  const Reading& reading = *find_reading(bench.bench, seq);
  EXPECT_EQ(reading.place->index, 1);
  EXPECT_EQ(reading.label, "L1");
  EXPECT_EQ(readings(bench.view(), Json::object())->at(0).at("label"), "L1");
  EXPECT_EQ(here(), "ring_gap/L1");
  EXPECT_EQ(place_event(bench.bench, std::nullopt)["label"], "L1");
}

TEST_F(Respec, WhereAReadingWasMovedFromIsToldByTheNewLabelToo) {
  const auto seq = press_at({"ring_gap", "1"}, "0.40");
  ASSERT_TRUE(bench.act(move_readings, {{"first", seq}, {"words", {"ring_gap", "2"}}, {"reason", "the other one"}}));
  ASSERT_TRUE(respec(with("cylinders = 2", "cylinders = 2\nlabels = [\"2\", \"1\"]")));
  const Json moved = readings(bench.view(), Json::object())->at(0);
  EXPECT_EQ(moved.at("label"), "1");
  EXPECT_EQ(moved.at("moved_from"), "ring_gap/2") << "position 1 as it is called now";
}

TEST_F(Respec, IsToldToWatchersAndKeptAsAChoice) {
  ASSERT_TRUE(bench.act(operator_add, {{"name", "ann"}}));
  ASSERT_TRUE(respec(with("Twin for tests", "Twin, second letter")));
  const auto events = events_of(bench.bench, {bench.last.front().seq, bench.last.front().body, ""});
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(events[0]["event"], "spec");
  EXPECT_EQ(events[0]["engine"], "K1");
  EXPECT_EQ(events[0]["reason"], "the maker wrote");
  ASSERT_EQ(bench.bench.choices.size(), 1U);
  EXPECT_EQ(bench.bench.choices[0].text, "a new version of the spec: Twin, second letter");
  EXPECT_EQ(bench.bench.choices[0].reason, "the maker wrote");
  EXPECT_EQ(bench.bench.choices[0].who, "ann");
}

TEST_F(Respec, TheFirstSpecIsNoEventAndNoChoice) {
  EXPECT_TRUE(bench.bench.choices.empty());
  const Json body = {{"kind", "spec"}, {"engine", "K1"}, {"title", "x"}};
  EXPECT_TRUE(events_of(bench.bench, {2, body, ""}).empty());
}

}  // namespace
}  // namespace tenth
