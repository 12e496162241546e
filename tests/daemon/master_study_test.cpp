#include <gtest/gtest.h>

#include "daemon/queries.hpp"
#include "tests/daemon/workbench.hpp"

// Studies of what a gauge shows on masters, planned beforehand.

namespace tenth {
namespace {

class MasterStudies : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kTwin);
    bench.add_gauge("mic", {{"measures", "outside"}});
  }
  Json plan(const Json& more = Json::object()) const {
    Json params = {
        {"name", "m"}, {"gauge", "mic"}, {"what", "linearity"}, {"masters", {"25", "50", "75 mm"}}, {"trials", 4}};
    params.update(more);
    return params;
  }
  Refusal refusal(const Json& more) {
    const auto answer = bench.act(study_plan, plan(more));
    return answer ? Refusal{Exit::done, "done", "", ""} : answer.error();
  }
  const MasterStudy& planned() const { return bench.bench.master_studies.at("m"); }
  const std::optional<Awaited>& awaited() const { return bench.bench.gauges.at("mic").awaited; }
  /// Shows 1 micrometre more than its master at 25 mm, 2 at 50, 3 at 75; one tenth of a micrometre more each time.
  void take_all() {
    for (int turn = 0; turn < 100 && awaited() && !awaited()->study.empty(); ++turn) {
      const auto whole = awaited()->master->pm() / 25'000'000'000;
      const std::string last = std::to_string(turn % 3);
      bench.press("mic", std::to_string(whole * 25) + ".00" + std::to_string(whole) + last);
    }
  }
  Workbench bench;
};

TEST_F(MasterStudies, WalkEachMasterAsOftenAsPlannedInARandomOrder) {
  const Json answer = *bench.act(study_plan, plan());
  EXPECT_EQ(answer["turns"], 12);
  EXPECT_EQ(answer["done"], 0);
  ASSERT_EQ(planned().order.size(), 12U);
  for (const int size : {25, 50, 75}) EXPECT_EQ(std::ranges::count(planned().order, Length::from_mm(size)), 4) << size;
  EXPECT_EQ(answer["next_mm"], mm(planned().order.front()));
  EXPECT_EQ(awaited()->master, planned().order.front());
}

TEST_F(MasterStudies, EachPressIsATurnAndNoReadingNorSetting) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  take_all();
  EXPECT_TRUE(planned().whole());
  EXPECT_FALSE(awaited());
  EXPECT_TRUE(bench.bench.reading_index.empty());
  EXPECT_TRUE(bench.bench.settings.empty());
  EXPECT_FALSE(bench.bench.gauges.at("mic").setting);
}

TEST_F(MasterStudies, GiveTheFiguresOfTheirOwnTurnsAlone) {
  ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"size", "50 mm"}}));
  bench.press("mic", "50.900");  // a setting that is none of the study's
  ASSERT_TRUE(bench.act(study_plan, plan()));
  EXPECT_EQ(study_linearity(bench.view(), {{"gauge", "m"}}).error().exit, Exit::refused) << "too little";
  take_all();
  const Json linearity = *study_linearity(bench.view(), {{"gauge", "m"}});
  EXPECT_EQ(linearity["done"], 12);
  ASSERT_EQ(linearity["masters"].size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(linearity["masters"][i]["readings"], 4);
    EXPECT_NEAR(linearity["masters"][i]["bias_mm"].get<double>(), 0.001 * static_cast<double>(i + 1), 0.00021);
  }
  // 1 micrometre more every 25 mm.
  EXPECT_NEAR(linearity["slope"]["value"].get<double>(), 0.001 / 25, 1e-5);
  const Json bias = *study_bias(bench.view(), {{"gauge", "m"}});
  EXPECT_NEAR(bias["value_mm"].get<double>(), 0.0021, 1e-4);
  EXPECT_EQ(bias["readings"], 12);
}

TEST_F(MasterStudies, WaitForTheirTurnsAsLongAsTheyTake) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  bench.pass(3600);
  take_all();
  EXPECT_TRUE(planned().whole());
}

TEST_F(MasterStudies, AFrameThatIsNotOfItsMasterIsNoTurn) {
  ASSERT_TRUE(bench.act(study_plan, plan({{"masters", {"25", "50"}}})));
  const std::string other = planned().order.front() == Length::from_mm(25) ? "50.001" : "25.001";
  bench.press("mic", other);
  EXPECT_EQ(bench.kinds(), std::vector<std::string>{"fault"});
  bench.press("mic", "1.000", Unit::in);
  EXPECT_EQ(planned().shown.size(), 0U);
  EXPECT_TRUE(awaited()) << "it waits on";
}

TEST_F(MasterStudies, ATurnWhoseDamageShowsLaterIsAskedForAgain) {
  ASSERT_TRUE(bench.act(study_plan, plan({{"trials", 2}})));
  const auto press = [this] {
    const auto whole = awaited()->master->pm() / 25'000'000'000;
    bench.press("mic", std::to_string(whole * 25) + ".001");
    return planned().seq;
  };
  press();
  const auto first = planned().order.front();
  const auto second = planned().order[1];
  bench.damage({press()});
  EXPECT_EQ(bench.kinds(), (std::vector<std::string>{"turns_void", "await"}));
  EXPECT_EQ(planned().shown.size(), 1U);
  EXPECT_EQ(planned().order.front(), first);
  EXPECT_EQ(planned().order.back(), second) << "at the end";
  EXPECT_EQ(awaited()->master, planned().order[1]);
  std::int64_t last = 0;
  while (awaited()) last = press();
  ASSERT_TRUE(planned().whole());
  bench.damage({last});
  EXPECT_FALSE(planned().whole());
  EXPECT_EQ(awaited()->master, planned().order.back()) << "one that was whole waits again";
}

TEST_F(MasterStudies, ChoosingAPlaceEndsThem) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  ASSERT_TRUE(bench.act(at, {{"words", {"piston/1"}}, {"gauge", "mic"}}));
  bench.press("mic", "82.950");
  EXPECT_EQ(bench.last_reading().place->feature, "piston");
  EXPECT_TRUE(planned().shown.empty());
}

TEST_F(MasterStudies, AreTakenByHandToo) {
  bench.add_gauge("plain", {{"port", "hand"}, {"measures", "outside"}});
  ASSERT_TRUE(bench.act(study_plan, plan({{"gauge", "plain"}, {"what", "bias"}, {"masters", {"25"}}, {"trials", 2}})));
  const Json enter_25 = {{"value", "25.001"}, {"again", "25.001"}, {"gauge", "plain"}};
  EXPECT_EQ((*bench.act(enter, enter_25))["study"]["done"], 1);
  EXPECT_EQ(bench.act(enter, {{"value", "52.001"}, {"again", "52.001"}, {"gauge", "plain"}}).error().code, "range");
  EXPECT_EQ((*bench.act(enter, enter_25))["study"]["next_mm"], nullptr);
}

TEST_F(MasterStudies, WrongPlansAreRefused) {
  EXPECT_EQ(refusal({{"what", "stability"}}).exit, Exit::words);
  EXPECT_EQ(refusal({{"masters", {"25"}}}).code, "masters") << "one has no span";
  EXPECT_EQ(refusal({{"masters", {"25", "25.0"}}}).code, "masters");
  EXPECT_EQ(refusal({{"masters", {"25", "-1"}}}).exit, Exit::refused);
  EXPECT_EQ(refusal({{"trials", 0}}).code, "trials");
  EXPECT_EQ(refusal({{"gauge", "mac"}}).code, "unknown_gauge");
  bench.add_gauge("bore", {{"measures", "inside"}, {"reads", "deviation"}});
  EXPECT_EQ(refusal({{"gauge", "bore"}}).code, "reads_deviation");
  EXPECT_TRUE(bench.bench.master_studies.empty());
  ASSERT_TRUE(bench.act(study_plan, plan()));
  EXPECT_EQ(refusal(Json::object()).code, "study_exists");
}

}  // namespace
}  // namespace tenth
