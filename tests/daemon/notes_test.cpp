#include <gtest/gtest.h>

#include "daemon/events.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

class Notes : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("mic", {{"measures", "outside"}});
  }
  Result<Json> note(const Json& params) { return bench.act(add_note, params); }
  Workbench bench;
};

TEST_F(Notes, ANoteNamesTheEngineThePlaceAndWho) {
  ASSERT_TRUE(bench.act(operator_add, {{"name", "ann"}}));
  ASSERT_TRUE(bench.act(at, {{"words", {"bore", "2", "top", "pin"}}}));
  const auto told = note({{"text", "scratch below the ring turn"}});
  ASSERT_TRUE(told) << told.error().message;
  const Json body = bench.last.front().body;
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"note"});
  EXPECT_EQ(body["engine"], "K1");
  EXPECT_EQ(body["spec"], bench.bench.engines.at("K1").spec_seq);
  EXPECT_EQ(body["place"], bench.bench.common.seq);
  EXPECT_EQ(body["operator"], "ann");
  const auto events = events_of(bench.bench, {bench.last.front().seq, body, ""});
  ASSERT_EQ(events.size(), 1U);
  Json event = *told;
  event.update({{"event", "note"}, {"operator", "ann"}});
  EXPECT_EQ(events[0], event);
  EXPECT_EQ(event["feature"], "bore");
  EXPECT_EQ(event["label"], "2");
  EXPECT_EQ(event["text"], "scratch below the ring turn");
  ASSERT_EQ(bench.bench.choices.size(), 1U);
  EXPECT_EQ(bench.bench.choices[0].text, "note at bore 2 top pin: scratch below the ring turn");
  EXPECT_EQ(bench.bench.choices[0].who, "ann");
  EXPECT_EQ(bench.bench.choices[0].time, body["time"].get<std::string>());
}

TEST_F(Notes, ANoteMayBeAboutTheEngineAlone) {
  const auto told = note({{"text", "block at 24 C since noon"}});
  ASSERT_TRUE(told);
  EXPECT_EQ((*told)["engine"], "K1");
  EXPECT_TRUE((*told)["feature"].is_null());
  EXPECT_EQ(bench.bench.choices.back().text, "note: block at 24 C since noon");
  EXPECT_EQ(bench.bench.choices.back().who, "tester");
}

TEST_F(Notes, TheGaugesOwnPlaceStands) {
  ASSERT_TRUE(bench.act(at, {{"words", {"piston", "1"}}, {"gauge", "mic"}}));
  EXPECT_EQ((*note({{"text", "x"}, {"gauge", "mic"}}))["feature"], "piston");
  EXPECT_TRUE((*note({{"text", "x"}}))["feature"].is_null());
}

TEST_F(Notes, WithoutAnEngineItIsKeptAllTheSame) {
  Workbench bare;
  const auto told = bare.act(add_note, {{"text", "the ring is away for calibration"}});
  ASSERT_TRUE(told);
  EXPECT_TRUE((*told)["engine"].is_null());
  EXPECT_EQ(bare.kinds(), std::vector<std::string>{"note"});
  EXPECT_TRUE(bare.bench.choices.empty());
}

TEST_F(Notes, ABlankNoteIsNone) {
  EXPECT_EQ(note({{"text", " \t"}}).error().exit, Exit::words);
  EXPECT_EQ(note(Json::object()).error().exit, Exit::words);
  EXPECT_EQ(note({{"text", "x"}, {"gauge", "mike"}}).error().exit, Exit::refused);
}

TEST_F(Notes, ANoteMovesNothingOn) {
  ASSERT_TRUE(bench.act(round_begin, {{"features", {"piston"}}}));
  ASSERT_TRUE(note({{"text", "x"}}));
  EXPECT_EQ(bench.standing(), "piston/1");
}

}  // namespace
}  // namespace tenth
