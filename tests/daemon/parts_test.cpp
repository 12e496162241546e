#include <gtest/gtest.h>

#include "daemon/events.hpp"
#include "daemon/queries.hpp"
#include "rules/couples.hpp"
#include "rules/place.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

/// Four rods on two pins, each pin with two seats; bearings in two halves.
const char* const kShared = R"(
unit = "mm"
[layout]
cylinders = 4
crankpins = 2
labels = ["L1", "R1", "L2", "R2"]
pins = [["L1", "R1"], ["L2", "R2"]]
[feature.rod_bearing]
count = "cylinders"
kind = "inside"
limits = [50.030, 50.050]
axes = ["vertical", "oblique"]
[feature.crankpin]
count = "crankpins"
kind = "outside"
limits = [49.980, 50.000]
levels = ["front", "rear"]
[fit.rod_clearance]
inside = "rod_bearing"
outside = "crankpin"
seats = ["front", "rear"]
limits = [0.035, 0.060]
)";

class Parts : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("any", Json::object());
  }
  Json install(Json params) {
    if (!params.contains("part")) params["part"] = "new one";
    const auto answer = bench.act(install_part, params);
    EXPECT_TRUE(answer) << answer.error().message;
    return answer ? *answer : Json();
  }
  Json mates(const std::string& fit, const std::string& index, const std::string& outside_index) {
    const auto answer = bench.act(mate_parts, {{"fit", fit}, {"index", index}, {"outside_index", outside_index}});
    EXPECT_TRUE(answer) << answer.error().message;
    return answer ? *answer : Json();
  }
  Refusal refusal(Decided (*act)(Draft&, const Json&), const Json& params) {
    const auto answer = bench.act(act, params);
    return answer ? Refusal{Exit::done, "done", "", ""} : answer.error();
  }
  std::int64_t press_at(const std::vector<std::string>& words, const std::string& number) {
    EXPECT_TRUE(bench.act(at, {{"words", words}}));
    bench.press("any", number);
    return bench.last_reading().seq;
  }
  /// The seqs of the readings that count.
  std::vector<std::int64_t> counting_seqs() {
    std::vector<std::int64_t> seqs;
    const Json counted = readings(bench.view(), Json::object()).value();
    for (const Json& reading : counted) seqs.push_back(reading["seq"]);
    return seqs;
  }
  Json fit_of(const std::string& fit, int index) {
    const Json report = check(bench.view(), Json::object()).value();
    for (const Json& result : report["fits"])
      if (result["fit"] == fit && result["index"] == index) return result;
    return nullptr;
  }
  const Engine& engine(const std::string& name = "K1") { return bench.bench.engines.at(name); }
  std::vector<Json> events() { return events_of(bench.bench, {bench.last.front().seq, bench.last.front().body, ""}); }
  using Seqs = std::vector<std::int64_t>;
  Workbench bench;
};

TEST_F(Parts, ADecisionIsKeptWithItsReasonAndTold) {
  ASSERT_TRUE(bench.act(operator_add, {{"name", "ann"}}));
  const auto answer = bench.act(make_decision, {{"text", "softer shells"}, {"remedy", "r1"}, {"reason", "free"}});
  ASSERT_TRUE(answer);
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"decide"});
  EXPECT_EQ(bench.last.front().body["spec"], engine().spec_seq);
  EXPECT_EQ((*answer)["engine"], "K1");
  EXPECT_EQ((*answer)["seq"], bench.last.front().seq);
  const Json event = events().at(0);
  EXPECT_EQ(event["event"], "decide");
  for (const char* key : {"engine", "text", "remedy", "reason", "seq"}) EXPECT_EQ(event[key], (*answer)[key]) << key;
  EXPECT_EQ(event["operator"], "ann");
  ASSERT_EQ(bench.bench.choices.size(), 1U);
  EXPECT_EQ(bench.bench.choices[0].text, "softer shells (remedy r1)");
  EXPECT_EQ(bench.bench.choices[0].reason, "free");
  EXPECT_EQ(bench.bench.choices[0].who, "ann");
}

TEST_F(Parts, ADecisionNeedsItsWordsAReasonAndAnEngine) {
  EXPECT_EQ(refusal(make_decision, {{"reason", "free"}}).exit, Exit::words);
  EXPECT_EQ(refusal(make_decision, {{"text", "x"}}).exit, Exit::words);
  EXPECT_EQ(refusal(make_decision, {{"text", "x"}, {"reason", " "}}).exit, Exit::words);
  Workbench empty;
  EXPECT_EQ(empty.act(make_decision, {{"text", "x"}, {"reason", "y"}}).error().code, "no_engine");
}

TEST_F(Parts, AnotherPartMakesItsIndexUnread) {
  const auto first = press_at({"piston", "1"}, "82.950"), second = press_at({"piston", "2"}, "82.951");
  EXPECT_EQ(counting_seqs(), (Seqs{first, second}));
  const Json answer = install({{"feature", "pist"}, {"index", "2"}, {"part", "piston-9"}});
  EXPECT_EQ(answer["feature"], "piston");
  EXPECT_EQ(answer["index"], 2);
  EXPECT_EQ(answer["places"], Json::array({"piston/2"}));
  EXPECT_EQ(counting_seqs(), Seqs{first});
  const Json all = readings(bench.view(), {{"all", true}}).value();
  EXPECT_EQ(all[1]["counts"], false);
  EXPECT_EQ(all[1]["state"], "kept");
  EXPECT_EQ(engine().installed.at({"piston", 2}).whole, "piston-9");
  EXPECT_EQ(bench.last.front().body["stage"], "as found");
}

TEST_F(Parts, TheRoundOffersThePlacesAgainAndNothingIsARepeat) {
  press_at({"piston", "1"}, "82.945");
  press_at({"piston", "2"}, "82.951");
  EXPECT_EQ(refusal(round_begin, {{"features", {"piston"}}}).code, "nothing_left");
  install({{"feature", "piston"}, {"index", "1"}});
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston"}}}));
  EXPECT_EQ(bench.standing(), "piston/1");
  bench.press("any", "82.959");  // 0.014 from the part that was there
  EXPECT_EQ(bench.last_reading().state, State::kept) << doubts(bench.last_reading());
  EXPECT_FALSE((bench.standing() != "none"));
}

TEST_F(Parts, UndoAndVoidDoNotReachBehindIt) {
  press_at({"piston", "1"}, "82.950");
  install({{"feature", "piston"}, {"index", "1"}});
  const auto after = press_at({"piston", "1"}, "82.952");
  EXPECT_EQ(counting_seqs(), Seqs{after});
  ASSERT_TRUE(bench.act(undo, Json::object()));
  EXPECT_EQ(counting_seqs(), Seqs{});
}

TEST_F(Parts, WhatWasReadBeforeIsStillOfTheOldPartWhereverItIsMoved) {
  const auto before = press_at({"piston", "2"}, "82.950");
  install({{"feature", "piston"}, {"index", "1"}});
  ASSERT_TRUE(bench.act(move_readings, {{"first", before}, {"words", {"piston", "1"}}, {"reason", "wrong one"}}));
  EXPECT_EQ(counting_seqs(), Seqs{});
}

TEST_F(Parts, HalvesStandBesideEachOtherAndAWholePartTakesBothPlaces) {
  const auto reading = press_at({"bore", "1", "top", "pin"}, "83.010");
  install({{"feature", "bore"}, {"index", "1"}, {"part", "u"}, {"half", "upper"}});
  EXPECT_TRUE(counting_seqs().empty()) << reading;
  install({{"feature", "bore"}, {"index", "1"}, {"part", "l"}, {"half", "lower"}});
  EXPECT_EQ(engine().installed.at({"bore", 1}), (Installed{"", "u", "l"}));
  install({{"feature", "bore"}, {"index", "1"}, {"part", "whole"}});
  EXPECT_EQ(engine().installed.at({"bore", 1}), (Installed{"whole", "", ""}));
  install({{"feature", "bore"}, {"index", "1"}, {"part", "u2"}, {"half", "upper"}});
  EXPECT_EQ(engine().installed.at({"bore", 1}), (Installed{"", "u2", ""}));
  EXPECT_EQ(events().at(0)["half"], "upper");
  EXPECT_EQ(events().at(0)["event"], "install");
  EXPECT_EQ(bench.bench.choices.back().text, "bore 1 upper: u2 installed");
}

TEST_F(Parts, InstallIsRefusedWhereNoPartSits) {
  const auto refused = [&](Json params) {
    params.update({{"part", params.value("part", "p")}});
    return refusal(install_part, params);
  };
  EXPECT_EQ(refused({{"feature", "pistol"}, {"index", "1"}}).code, "unknown_feature");
  EXPECT_EQ(refused({{"feature", "piston"}, {"index", "3"}}).code, "unknown_index");
  EXPECT_EQ(refused({{"feature", "piston"}}).code, "missing_index");
  EXPECT_EQ(refused({{"feature", "oil_ways_clear"}}).code, "no_part");
  EXPECT_EQ(refused({{"feature", "piston"}, {"index", "1"}, {"half", "upper"}}).code, "half");
  EXPECT_EQ(refused({{"feature", "bore"}, {"index", "1"}, {"half", "left"}}).exit, Exit::words);
  for (const char* part : {"", "  ", "a\tb", "\x1b[2J", "\x7f"})
    EXPECT_EQ(refused({{"feature", "bore"}, {"index", "1"}, {"part", part}}).exit, Exit::words) << part;
  EXPECT_EQ(refused({{"feature", "bore"}, {"index", "1"}, {"part", std::string(101, 'x')}}).exit, Exit::refused);
  EXPECT_TRUE(engine().installed.empty());
}

TEST_F(Parts, TheAlertOfWhatWasOutEndsInTheSameAct) {
  press_at({"ring_gap", "1"}, "0.47");
  ASSERT_EQ(bench.bench.alerts.size(), 1U);
  install({{"feature", "ring_gap"}, {"index", "1"}});
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"install", "alert_end"}));
}

TEST_F(Parts, APartMeasuredBeforeItsCheckIsNoLongerTooEarlyOnceItIsOut) {
  press_at({"piston", "1"}, "82.950");
  ASSERT_EQ(bench.bench.alerts.size(), 1U);
  EXPECT_EQ(bench.bench.alerts[0].cause.subject, "oil_ways_clear");
  install({{"feature", "piston"}, {"index", "1"}});
  EXPECT_EQ(bench.bench.alerts[0].state, AlertState::ended);
}

TEST_F(Parts, MatesAreJudgedTogetherAndTheDisplacedHasNone) {
  for (const char* level : {"top", "bottom"})
    for (const char* axis : {"thrust", "pin"}) press_at({"bore", "1", level, axis}, "83.010");
  press_at({"piston", "1"}, "82.955");
  press_at({"piston", "2"}, "82.945");
  EXPECT_EQ(fit_of("piston_clearance", 1)["mean_mm"], 0.055);
  const Json answer = mates("piston", "1", "2");
  EXPECT_EQ(answer["fit"], "piston_clearance");
  EXPECT_EQ(answer["lost"], Json::parse(R"([{"index": 2, "label": "2"}])"));
  EXPECT_EQ(answer["freed"], Json::parse(R"({"index": 1, "label": "1"})"));
  EXPECT_EQ(fit_of("piston_clearance", 1)["mean_mm"], 0.065);
  EXPECT_EQ(fit_of("piston_clearance", 1)["outside_index"], 2);
  EXPECT_TRUE(fit_of("piston_clearance", 2)["outside_index"].is_null());
  EXPECT_TRUE(fit_of("piston_clearance", 2)["outside_label"].is_null());
  EXPECT_EQ(fit_of("piston_clearance", 2)["verdict"], "incomplete");
  EXPECT_EQ(budget(bench.view(), {{"fit", "piston_clearance"}, {"index", "2"}}).error().code, "no_partner");
  const Json last = mates("piston", "2", "1");
  EXPECT_EQ(last["lost"], Json::array());
  EXPECT_TRUE(last["freed"].is_null());
  EXPECT_EQ(fit_of("piston_clearance", 2)["outside_index"], 1);
}

TEST_F(Parts, WhoHasNoMateIsSaidAmongWhatCanBeDone) {
  mates("piston_clearance", "1", "2");
  const Json report = check(bench.view(), {{"ready", true}}).value();
  const Json& last = report["ready"].back();
  EXPECT_EQ(last["act"], "mate");
  EXPECT_EQ(last["feature"], "bore");
  EXPECT_EQ(last["index"], 2);
  EXPECT_EQ(last["text"], "give bore 2 a piston: tenth mate piston_clearance 2 INDEX");
}

TEST_F(Parts, MateIsRefusedForWhatIsNotThere) {
  const auto refused = [&](const char* fit, const char* index, const char* outside_index) {
    return refusal(mate_parts, {{"fit", fit}, {"index", index}, {"outside_index", outside_index}}).code;
  };
  EXPECT_EQ(refused("ring_clearance", "1", "2"), "unknown_fit");
  EXPECT_EQ(refused("piston_clearance", "3", "1"), "unknown_index");
  EXPECT_EQ(refused("piston_clearance", "1", "3"), "unknown_index");
  EXPECT_EQ(refused("piston_clearance", "1", "1"), "mated");
  EXPECT_TRUE(engine().mates.empty());
}

TEST_F(Parts, MatesAreToldAndKept) {
  const Json answer = mates("piston_clearance", "1", "2");
  const Json event = events().at(0);
  EXPECT_EQ(event["event"], "mate");
  for (const auto& [key, value] : answer.items()) EXPECT_EQ(event[key], value) << key;
  EXPECT_EQ(bench.bench.choices.back().text, "piston_clearance: bore 1 goes with piston 2");
}

class Shared : public Parts {
 protected:
  void SetUp() override {
    Parts::SetUp();
    bench.add_engine("V", kShared);
    ASSERT_TRUE(bench.act(engine_use, {{"name", "V"}}));
    for (const char* pin : {"1", "2"})
      for (const char* seat : {"front", "rear"})
        press_at({"crankpin", pin, seat}, std::string("49.98") + (*pin == '1' ? "1" : "5"));
    for (const char* rod : {"L1", "R1", "L2", "R2"})
      for (const char* axis : {"vertical", "oblique"}) press_at({"rod_bearing", rod, axis}, "50.040");
  }
};

TEST_F(Shared, ARodKeepsItsSeatOnAnotherPinAndOnlyWhoHadItLosesItsMate) {
  EXPECT_EQ(fit_of("rod_clearance", 1)["mean_mm"], 0.059);
  const Json answer = mates("rod_clearance", "L1", "2");
  EXPECT_EQ(answer["label"], "L1");
  EXPECT_EQ(answer["outside_label"], "2");
  EXPECT_EQ(answer["lost"], Json::parse(R"([{"index": 3, "label": "L2"}])"));
  EXPECT_EQ(answer["freed"]["label"], "1");
  EXPECT_EQ(fit_of("rod_clearance", 1)["mean_mm"], 0.055);
  EXPECT_EQ(fit_of("rod_clearance", 3)["verdict"], "incomplete");
  EXPECT_EQ(fit_of("rod_clearance", 4)["outside_index"], 2) << "the rear seat of pin 2 is as it was";
  EXPECT_EQ(fit_of("rod_clearance", 2)["outside_index"], 1);
}

TEST_F(Shared, AnotherRodBearingIsOneIndexOfManyAndItsSeatStays) {
  install({{"feature", "rod_bearing"}, {"index", "R1"}, {"part", "soft-upper"}, {"half", "upper"}});
  EXPECT_EQ(fit_of("rod_clearance", 2)["verdict"], "incomplete");
  for (const int index : {1, 3, 4}) EXPECT_EQ(fit_of("rod_clearance", index)["verdict"], "in") << index;
  for (const char* axis : {"vertical", "oblique"}) press_at({"rod_bearing", "R1", axis}, "50.035");
  EXPECT_EQ(fit_of("rod_clearance", 2)["mean_mm"], 0.054);
}

TEST_F(Shared, MatesOutlastAVersionThatPairsAsBeforeAndNoOther) {
  mates("rod_clearance", "L1", "2");
  const auto respec = [&](const std::string& text, const std::string& instead) {
    std::string spec = kShared;
    spec.replace(spec.find(text), text.size(), instead);
    const auto answer = bench.act(engine_respec, {{"name", "V"}, {"file", "v.toml"}, {"text", spec}, {"reason", "x"}});
    ASSERT_TRUE(answer) << answer.error().message;
  };
  respec("limits = [0.035, 0.060]", "limits = [0.035, 0.065]");
  EXPECT_EQ(fit_of("rod_clearance", 1)["outside_index"], 2);
  respec(R"(pins = [["L1", "R1"], ["L2", "R2"]])", R"(pins = [["L2", "R2"], ["L1", "R1"]])");
  EXPECT_TRUE(engine("V").mates.empty());
  EXPECT_EQ(fit_of("rod_clearance", 1)["outside_index"], 2);
  EXPECT_EQ(fit_of("rod_clearance", 3)["outside_index"], 1);
}

TEST_F(Parts, AVersionWithoutTheIndexForgetsWhatSatThere) {
  install({{"feature", "ring_gap"}, {"index", "2"}});
  std::string spec = kTwin;
  const std::string text = "[feature.ring_gap]\ncount = \"cylinders\"\n";
  spec.replace(spec.find(text), text.size(), "[feature.ring_gap]\n");
  ASSERT_TRUE(bench.act(engine_respec, {{"name", "K1"}, {"file", "f"}, {"text", spec}, {"reason", "x"}}));
  EXPECT_TRUE(engine().installed.empty());
  EXPECT_TRUE(engine().replaced.empty());
}

}  // namespace
}  // namespace tenth
