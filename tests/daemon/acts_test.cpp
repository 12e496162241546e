#include <gtest/gtest.h>

#include "daemon/queries.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Acts : public testing::Test {
 protected:
  void SetUp() override { bench.add_engine("K1", kTwin); }
  Refusal refusal(Decided (*act)(Draft&, const Json&), const Json& params) {
    const auto answer = bench.act(act, params);
    return answer ? Refusal{Exit::done, "done", "", ""} : answer.error();
  }
  Json gauge(const std::string& name, const Json& more = Json::object()) {
    Json params = {{"name", name}, {"port", "/dev/" + name}, {"profile", "bcd13"}};
    params.update(more);
    return params;
  }
  Workbench bench;
};

TEST_F(Acts, TheFirstEngineIsInUse) {
  EXPECT_EQ(bench.bench.engine, "K1");
  bench.add_engine("K2", kTwin);
  EXPECT_EQ(bench.bench.engine, "K1");
  EXPECT_EQ(refusal(engine_add, {{"name", "K2"}, {"file", "f"}, {"text", kTwin}}).code, "engine_exists");
  EXPECT_EQ(refusal(engine_use, {{"name", "K11"}}).remedy, "did you mean `K1`?");
}

TEST_F(Acts, ASpecWithAnErrorLeavesNothing) {
  const Refusal refused =
      refusal(engine_add, {{"name", "K5"}, {"file", "k5.toml"}, {"text", "title = \"x\"\nunit = \"cubit\"\n"}});
  EXPECT_EQ(refused.exit, Exit::refused);
  EXPECT_NE(refused.message.find("k5.toml:2:"), std::string::npos) << refused.message;
  const Refusal empty = refusal(engine_add, {{"name", "K5"}, {"file", "k5.toml"}, {"text", ""}});
  EXPECT_EQ(empty.exit, Exit::refused);
  EXPECT_NE(empty.message.find("k5.toml:1:"), std::string::npos) << empty.message;
  EXPECT_FALSE(bench.bench.engines.contains("K5"));
}

TEST_F(Acts, GaugesAreCheckedBeforeTheyAreThere) {
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"profile", "bdc13"}})).remedy, "did you mean `bcd13`?");
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"port", "usb:"}})).exit, Exit::words);
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"profile", "line"}})).exit, Exit::words);
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"reads", "sizes"}})).exit, Exit::words);
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"drift", "some"}})).exit, Exit::words);
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"channel", "A"}})).code, "channel");
  EXPECT_TRUE(bench.bench.gauges.empty());
}

TEST_F(Acts, APortOrNameIsTakenOnce) {
  ASSERT_TRUE(bench.act(gauge_add, gauge("g", {{"serial", "S1"}})));
  EXPECT_EQ(refusal(gauge_add, gauge("g")).code, "gauge_exists");
  EXPECT_EQ(refusal(gauge_add, gauge("h", {{"port", "/dev/g"}})).code, "port_taken");
  ASSERT_TRUE(bench.act(gauge_drop, {{"name", "g"}}));
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"serial", "S2"}})).code, "gauge_exists");
  EXPECT_EQ(refusal(gauge_add, gauge("g", {{"serial", "S1"}})).code, "done");
}

TEST_F(Acts, AProfileIsKeptWholeOnce) {
  ASSERT_TRUE(bench.act(gauge_add, gauge("g")));
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"profile", "gauge"}));
  ASSERT_TRUE(bench.act(gauge_add, gauge("h")));
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"gauge"});
}

TEST_F(Acts, BareLengthsOfAGaugeAreInItsUnit) {
  ASSERT_TRUE(bench.act(gauge_add, gauge("g", {{"gauge_unit", "in"}, {"drift", "0.0002"}})));
  EXPECT_EQ(bench.bench.gauges.at("g").drift, Length::from_pm(5'080'000));
  ASSERT_TRUE(bench.act(gauge_add, gauge("h")));
  EXPECT_EQ(bench.bench.gauges.at("h").drift, Length::from_pm(2'500'000));
}

TEST_F(Acts, OperatorsByLoginAndByGauge) {
  ASSERT_TRUE(bench.act(operator_add, {{"name", "ann"}}));
  ASSERT_TRUE(bench.act(operator_add, {{"name", "ben"}, {"user", "tester"}}));
  ASSERT_TRUE(bench.act(gauge_add, gauge("g", {{"measures", "any"}})));
  EXPECT_EQ(bench.last.back().body["operator"], "ben");  // the caller's own login
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}}));
  bench.press("g", "82.950");
  EXPECT_EQ(bench.last_reading().operator_name, "ann");  // in use at the bench
  ASSERT_TRUE(bench.act(operator_use, {{"name", "ben"}, {"gauge", "g"}}));
  bench.press("g", "82.950");
  EXPECT_EQ(bench.last_reading().operator_name, "ben");
}

TEST_F(Acts, EnteredValuesMustAgree) {
  ASSERT_TRUE(bench.act(at, {{"words", {"ring_gap", "1"}}}));
  EXPECT_EQ(refusal(enter, {{"value", "0.35"}, {"again", "0.53"}}).code, "again");
  EXPECT_EQ(refusal(enter, {{"value", "0.35"}}).exit, Exit::words);
  EXPECT_EQ(refusal(enter, {{"value", "wide"}, {"again", "wide"}}).exit, Exit::words);
  ASSERT_TRUE(bench.act(enter, {{"value", "0.350 mm"}, {"again", "0.35"}, {"note", "feeler"}}));
  EXPECT_EQ(bench.last_reading().size, Length::from_um(350));
  EXPECT_EQ(bench.last_reading().raw, "0.350 mm");
  EXPECT_EQ(bench.last_reading().text, "0.350 mm");
  EXPECT_EQ(bench.last_reading().source, Source::hand);
}

TEST_F(Acts, InchesTypedIntoAMetricEngineAreInches) {
  ASSERT_TRUE(bench.act(at, {{"words", {"ring_gap", "1"}}}));
  ASSERT_TRUE(bench.act(enter, {{"value", "14 thou"}, {"again", "0.014 in"}}));
  EXPECT_EQ(bench.last_reading().size, Length::from_pm(355'600'000));
  EXPECT_EQ(bench.last_reading().unit, Unit::in);
}

TEST_F(Acts, ACheckTakesOnlyAnswers) {
  ASSERT_TRUE(bench.act(at, {{"words", {"oil_ways_clear"}}}));
  EXPECT_EQ(refusal(enter, {{"value", "0.35"}, {"again", "0.35"}}).code, "answer");
  ASSERT_TRUE(bench.act(enter, {{"value", "no"}, {"note", "front plug still in"}}));
  const auto& answers = bench.bench.engines.at("K1").answers;
  EXPECT_EQ(answers.at({"oil_ways_clear", 1}).answer, Answer::no);
  EXPECT_EQ(answers.at({"oil_ways_clear", 1}).note, "front plug still in");
}

TEST_F(Acts, AnAlertIsClearedByANoteAndChangesNoVerdict) {
  ASSERT_TRUE(bench.act(at, {{"words", {"oil_ways_clear"}}}));
  ASSERT_TRUE(bench.act(enter, {{"value", "no"}}));
  ASSERT_EQ(bench.bench.alerts.size(), 1U);
  const std::int64_t id = bench.bench.alerts.front().id;
  EXPECT_EQ(refusal(alerts_clear, {{"id", id + 1}, {"note", "x"}}).code, "unknown_alert");
  ASSERT_TRUE(bench.act(alerts_clear, {{"id", id}, {"note", "plug ordered"}}));
  EXPECT_EQ(bench.bench.alerts.front().state, AlertState::cleared);
  EXPECT_EQ(judge(bench.bench.engines.at("K1")).verdict, Verdict::out);
  ASSERT_TRUE(bench.act(enter, {{"value", "no"}}));
  EXPECT_EQ(bench.bench.alerts.size(), 1U) << "silent while its cause lasts";
  ASSERT_TRUE(bench.act(enter, {{"value", "yes"}}));
  ASSERT_TRUE(bench.act(enter, {{"value", "no"}}));
  EXPECT_EQ(bench.bench.alerts.size(), 2U) << "raised anew when it returns";
}

TEST_F(Acts, AnOpenAlertHasItsFiguresOfNowAndAClearedOneThoseThatWereAccepted) {
  const auto gap = [this](const char* value) {
    ASSERT_TRUE(bench.act(at, {{"words", {"ring_gap", "1"}}}));
    ASSERT_TRUE(bench.act(enter, {{"value", value}, {"again", value}}));
  };
  const auto told = [this] { return alerts(bench.view(), Json::object()).value().at(0); };
  gap("0.80");
  EXPECT_EQ(told()["value_mm"], 0.8);
  gap("0.85");
  ASSERT_EQ(bench.bench.alerts.size(), 1U) << "one for each cause";
  EXPECT_EQ(told()["value_mm"], 0.85);
  EXPECT_NE(told()["text"].get<std::string>().find("0.850"), std::string::npos);
  ASSERT_TRUE(bench.act(alerts_clear, {{"id", bench.bench.alerts.front().id}, {"note", "kept for the mule"}}));
  gap("0.90");
  EXPECT_EQ(bench.bench.alerts.front().cause.value, Length::from_um(850));
}

}  // namespace
}  // namespace tenth
