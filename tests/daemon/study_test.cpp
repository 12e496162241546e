#include <gtest/gtest.h>

#include "daemon/queries.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

const char* const kJournals = R"(title = "Journals"
unit = "mm"
[feature.journal]
count = 3
kind = "outside"
limits = [59.980, 60.020]
axes = ["x", "y"]
out_of_round = 0.005
[feature.housing]
kind = "inside"
limits = [60.020, 60.060]
)";

class Study : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kJournals);
    bench.add_gauge("mic", {{"measures", "outside"}});
    for (const char* name : {"ann", "bo"}) ASSERT_TRUE(bench.act(operator_add, {{"name", name}}));
  }
  Json plan(const Json& more = Json::object()) const {
    Json params = {{"name", "s"}, {"gauge", "mic"}, {"feature", "journal"}, {"parts", 3}, {"operators", {"ann", "bo"}},
                   {"trials", 2}};
    params.update(more);
    return params;
  }
  const StudyTurn& turn() const {
    const Standing& standing = bench.bench.own.at("mic");
    return bench.bench.studies.at("s").order.at(standing.at);
  }
  /// Measures the turn that the round stands at, as whom it asks for.
  void take(const std::string& number, const std::string& by = "") {
    ASSERT_TRUE(bench.act(operator_use, {{"name", by.empty() ? turn().by : by}, {"gauge", "mic"}}));
    bench.press("mic", number);
  }
  /// Part p reads p micrometres above 60 mm, the second trial one tenth of that more; bo reads 0.2 µm more.
  void take_all() {
    while ((bench.standing("mic") != "none")) {
      const int tenths = turn().part * 10 + (turn().trial - 1) + (turn().by == "bo" ? 2 : 0);
      take("60.00" + std::string(tenths < 10 ? "0" : "") + std::to_string(tenths));
    }
  }
  Json result() const { return *study(bench.view(), {{"name", "s"}}); }
  Workbench bench;
};

TEST_F(Study, ThePlanAsksForEachPartByEachOperatorInEachTrialOnce) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  const auto& order = bench.bench.studies.at("s").order;
  ASSERT_EQ(order.size(), 12U);
  std::set<std::tuple<int, std::string, int>> turns;
  for (const StudyTurn& each : order) turns.insert({each.part, each.by, each.trial});
  EXPECT_EQ(turns.size(), 12U);
  for (const StudyTurn& each : order) EXPECT_EQ(each.place, (Place{"journal", each.part, "", "x"}));
}

TEST_F(Study, TheRoundLeadsThroughItAndTheResultIsWhole) {
  ASSERT_TRUE(bench.act(study_plan, plan({{"tolerance", "0.02"}, {"unit", "mm"}})));
  take_all();
  const Json whole = result();
  EXPECT_EQ(whole["done"], 12);
  EXPECT_EQ(whole["why"], nullptr);
  // Ranges of all cells 0.1 µm; K1 = 0.8862 for two trials (tables of d2).
  EXPECT_NEAR(whole["average_and_range"]["repeatability"]["sigma_mm"].get<double>(), 0.0001 * 0.8862, 1e-9);
  EXPECT_NEAR(whole["average_and_range"]["repeatability"]["of_tolerance"].get<double>(),
              100 * 6 * 0.0001 * 0.8862 / 0.02, 1e-5);
  EXPECT_GT(whole["anova"]["parts"]["sigma_mm"], whole["anova"]["gauge"]["sigma_mm"]);
  const Json& models = whole["anova"]["models"];
  EXPECT_EQ(models["interaction"]["sources"]["interaction"], models["pooled"]["sources"]["interaction"]);
  EXPECT_NE(models["interaction"]["repeatability"], models["pooled"]["repeatability"]);
  const Json& used = models[whole["anova"]["pooled"] == true ? "pooled" : "interaction"];
  EXPECT_EQ(used["gauge"], whole["anova"]["gauge"]);
  EXPECT_EQ(whole["uncertainty_from"], "study");
  ASSERT_EQ(whole["adequacy"].size(), 2U);
  EXPECT_EQ(whole["adequacy"][0]["verdict"], "good");
}

TEST_F(Study, AStatedUncertaintyIsTheOneThatIsHeldAgainstTheLimits) {
  bench.add_gauge("coarse", {{"measures", "outside"}, {"uncertainty", "0.006 mm"}});
  ASSERT_TRUE(bench.act(study_plan, plan({{"gauge", "coarse"}})));
  while ((bench.standing("coarse") != "none")) {
    const auto& order = bench.bench.studies.at("s").order;
    const StudyTurn now = order.at(bench.bench.own.at("coarse").at);
    ASSERT_TRUE(bench.act(operator_use, {{"name", now.by}, {"gauge", "coarse"}}));
    bench.press("coarse", "60.00" + std::to_string(now.part) + std::to_string(now.trial));
  }
  const Json whole = result();
  EXPECT_EQ(whole["uncertainty_from"], "stated");
  EXPECT_EQ(whole["adequacy"][0]["verdict"], "usable");      // 0.040 / 0.006
  EXPECT_EQ(whole["adequacy"][1]["verdict"], "too_coarse");  // 0.005 / 0.006
}

TEST_F(Study, APressByAnotherOperatorFindsNoPlaceAndTheTurnStays) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  const std::string place = bench.standing("mic"), planned = turn().by;
  take("60.001", planned == "ann" ? "bo" : "ann");
  EXPECT_EQ(doubts(bench.last_reading()), "no_place");
  EXPECT_EQ(bench.standing("mic"), place);
  EXPECT_EQ(result()["done"], 0);
  take("60.001", planned);
  EXPECT_EQ(bench.last_reading().state, State::kept);
  EXPECT_EQ(result()["done"], 1);
}

TEST_F(Study, AReadingUndoneIsTakenAnew) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  take("60.001");
  ASSERT_TRUE(bench.act(undo, {{"gauge", "mic"}}));
  EXPECT_EQ(result()["done"], 0);
  take("60.002");
  EXPECT_EQ(result()["done"], 1);
  EXPECT_NE(result()["why"], nullptr);
  EXPECT_EQ(result()["anova"], nullptr);
}

TEST_F(Study, ReadingsElsewhereAreNoneOfIt) {
  ASSERT_TRUE(bench.act(study_plan, plan()));
  ASSERT_TRUE(bench.act(at, {{"words", {"journal", "1", "y"}}, {"gauge", "mic"}}));
  bench.press("mic", "60.001");
  EXPECT_EQ(result()["done"], 0);
}

TEST_F(Study, WrongPlansAreRefusedAndLeaveThePlaceAlone) {
  EXPECT_EQ(bench.act(study_plan, plan({{"parts", 7}})).error().exit, Exit::refused);
  EXPECT_EQ(bench.act(study_plan, plan({{"parts", 1}})).error().exit, Exit::words);
  EXPECT_EQ(bench.act(study_plan, plan({{"operators", {"ann"}}})).error().exit, Exit::words);
  EXPECT_EQ(bench.act(study_plan, plan({{"operators", {"ann", "ann"}}})).error().exit, Exit::words);
  EXPECT_EQ(bench.act(study_plan, plan({{"operators", {"ann", "cy"}}})).error().exit, Exit::refused);
  EXPECT_EQ(bench.act(study_plan, plan({{"feature", "housing"}})).error().exit, Exit::refused);
  EXPECT_EQ(bench.act(study_plan, plan({{"tolerance", "0 mm"}})).error().exit, Exit::words);
  EXPECT_FALSE((bench.standing("mic") != "none"));
  ASSERT_TRUE(bench.act(study_plan, plan()));
  EXPECT_EQ(bench.act(study_plan, plan()).error().code, "study_exists");
  EXPECT_EQ(study(bench.view(), {{"name", "t"}}).error().exit, Exit::refused);
}

class MasterChecks : public testing::Test {
 protected:
  void SetUp() override { bench.add_gauge("mic", {{"measures", "outside"}, {"drift", "0.003 mm"}}); }
  void set(const std::string& size, const std::string& shown) {
    ASSERT_TRUE(bench.act(master, {{"gauge", "mic"}, {"size", size + " mm"}}));
    bench.press("mic", shown);
  }
  void check_after_days(int days, const std::string& shown) {
    bench.pass(days * 86'400LL);
    ASSERT_TRUE(bench.act(recheck, {{"gauge", "mic"}}));
    bench.press("mic", shown);
  }
  Workbench bench;
};

TEST_F(MasterChecks, ASteadyDriftIsToldByTheMonth) {
  set("50", "50.000");
  for (int i = 1; i <= 4; ++i) check_after_days(10, "50.000" + std::to_string(i));
  const Json chart = *charts(bench.view(), {{"gauge", "mic"}});
  ASSERT_EQ(chart["checks"].size(), 4U);
  EXPECT_EQ(chart["checks"][3]["drift_mm"], 0.0004);
  // 0.1 µm in ten days, of which a month has 30.4375.
  EXPECT_NEAR(chart["drift_per_month"]["value_mm"].get<double>(), 0.0001 * 3.04375, 1e-9);
  EXPECT_NEAR(chart["set_again"]["likely_days"].get<double>(), 300, 1e-3);
  // Individuals: mean 0.25 µm, moving range 0.1 µm over d2 = 1.128.
  EXPECT_NEAR(chart["individuals"]["mean_mm"].get<double>(), 0.00025, 1e-9);
  EXPECT_NEAR(chart["individuals"]["upper_mm"].get<double>(), 0.00025 + 3 * 0.0001 / 1.128, 1e-7);
}

TEST_F(MasterChecks, AChartWantsTwoChecks) {
  set("50", "50.000");
  check_after_days(1, "50.000");
  EXPECT_EQ(charts(bench.view(), {{"gauge", "mic"}}).error().exit, Exit::refused);
}

TEST_F(MasterChecks, BiasIsWhatItShowsBeyondItsMaster) {
  for (const char* shown : {"50.0010", "50.0012", "50.0011"}) set("50", shown);
  const Json bias = *study_bias(bench.view(), {{"gauge", "mic"}});
  EXPECT_EQ(bias["value_mm"], 0.0011);
  EXPECT_EQ(bias["real"], true);
  EXPECT_EQ(study_linearity(bench.view(), {{"gauge", "mic"}}).error().exit, Exit::refused);  // one master has no span
  for (const char* shown : {"75.0010", "75.0012"}) set("75", shown);
  EXPECT_EQ(study_linearity(bench.view(), {{"gauge", "mic"}})->at("masters").size(), 2U);
}

TEST_F(MasterChecks, AGaugeOfDeviationsHasNoBiasOnItsMaster) {
  bench.add_gauge("bore", {{"measures", "inside"}, {"reads", "deviation"}});
  EXPECT_EQ(study_bias(bench.view(), {{"gauge", "bore"}}).error().code, "reads_deviation");
}

}  // namespace
}  // namespace tenth
