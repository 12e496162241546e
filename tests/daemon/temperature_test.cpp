#include <gtest/gtest.h>

#include <algorithm>

#include "daemon/queries.hpp"
#include "schema/wire/views.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

const char* const kWarmTwin = R"(title = "Warm twin"
unit = "mm"
[layout]
cylinders = 2
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [83.000, 83.020]
material = "grey iron"
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [82.945, 82.960]
material = "piston alloy"
[feature.cap]
kind = "inside"
limits = [60.000, 60.020]
[fit.clearance]
inside = "bore"
outside = "piston"
limits = [0.040, 0.075]
)";

class Temperature : public testing::Test {
 protected:
  void SetUp() override {
    bench.add_engine("K1", kWarmTwin);
    bench.add_gauge("any", {{"uncertainty", "0.002 mm"}});
    bench.add_gauge("own", {{"expansion", "0"}});
  }
  void tell(const Json& params) { ASSERT_TRUE(bench.act(temperature, params)); }
  void read(const std::string& place, const std::string& number, const std::string& gauge = "any") {
    ASSERT_TRUE(bench.act(at, {{"words", {place}}}));
    bench.press(gauge, number);
  }
  std::optional<Length> size_20c() const { return bench.last_reading().size_20c; }
  Workbench bench;
};

TEST_F(Temperature, AReadingRestsOnWhatWasTold) {
  tell({{"part", "30"}, {"gauge", "20"}});
  const std::int64_t told = bench.bench.seq;
  read("bore/1", "83.010");
  const Json& body = bench.last.front().body;
  EXPECT_EQ(body["temperature"], told);
  EXPECT_EQ(body["size_pm"], 83'010'000'000);
  EXPECT_EQ(body["size_20c_pm"], 83'000'536'860);  // 83.010 × (1 - 11.4e-6 × 10)
  EXPECT_EQ(size_20c()->pm(), 83'000'536'860);
}

TEST_F(Temperature, TheGaugesOwnExpansionIsUsed) {
  tell({{"part", "30"}, {"gauge", "30"}});
  read("bore/1", "83.010", "own");
  EXPECT_EQ(size_20c()->pm(), 83'000'536'860);
  read("bore/2", "83.010", "any");  // 11.5 against 11.4: nearly nothing
  EXPECT_EQ(size_20c()->pm(), 83'010'083'010);
}

TEST_F(Temperature, HalfTheKnowledgeIsNone) {
  tell({{"part", "30"}});
  read("bore/1", "83.010");
  EXPECT_FALSE(size_20c());
  EXPECT_EQ(bench.last.front().body["size_20c_pm"], nullptr);
  EXPECT_EQ(bench.last.front().body["temperature"], bench.bench.warmths.by_feature.at(""));
}

TEST_F(Temperature, StandsForTheFeaturesNamedUntilChanged) {
  tell({{"part", "30"}, {"gauge", "20"}, {"features", {"piston"}}});
  read("bore/1", "83.010");
  EXPECT_FALSE(size_20c());
  read("piston/1", "82.950");
  EXPECT_TRUE(size_20c());
  tell({{"part", "20"}, {"gauge", "20"}});  // all, and so the piston too
  read("piston/2", "82.950");
  EXPECT_EQ(size_20c(), Length::from_um(82'950));
}

TEST_F(Temperature, EndsAfterItsLife) {
  tell({{"part", "30"}, {"gauge", "20"}});
  bench.pass(4 * 3600);
  read("bore/1", "83.010");
  EXPECT_TRUE(size_20c());
  bench.pass(1);
  read("bore/2", "83.010");
  EXPECT_FALSE(size_20c());
}

TEST_F(Temperature, EndsWithAnotherEngine) {
  tell({{"part", "30"}, {"gauge", "20"}});
  bench.add_engine("K2", kWarmTwin);
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K2"}}));
  read("bore/1", "83.010");
  EXPECT_FALSE(size_20c());
  ASSERT_TRUE(bench.act(engine_use, {{"name", "K1"}}));
  read("bore/1", "83.010");
  EXPECT_FALSE(size_20c());
}

TEST_F(Temperature, AMoveTakesTheMaterialOfTheNewPlace) {
  tell({{"part", "30"}, {"gauge", "20"}});
  read("bore/1", "82.955");
  const std::int64_t seq = bench.last_reading().seq;
  ASSERT_TRUE(bench.act(move_readings, {{"first", seq}, {"words", {"piston/1"}}, {"reason", "wrong part"}}));
  EXPECT_EQ(find_reading(bench.bench, seq)->size_20c->pm(), 82'938'823'775);  // 82.955 × (1 - 19.5e-6 × 10)
}

TEST_F(Temperature, OneSidedCorrectionRaisesAnAlertThatEndsWhenBothAre) {
  tell({{"part", "30"}, {"gauge", "20"}, {"features", {"bore"}}});
  read("bore/1", "83.016");
  read("piston/1", "82.950");
  const auto told = [&] {
    return std::find_if(bench.bench.alerts.begin(), bench.bench.alerts.end(),
                        [](const Alert& alert) { return alert.cause.what == AlertWhat::temperature; });
  };
  ASSERT_NE(told(), bench.bench.alerts.end());
  EXPECT_EQ(told()->cause.subject, "clearance 1");
  EXPECT_EQ(check_document(bench.bench.engines.at("K1"))["fits"][0]["corrected"], "inside");
  tell({{"part", "30"}, {"gauge", "20"}});
  read("piston/1", "82.951");
  EXPECT_EQ(told()->state, AlertState::ended);
  EXPECT_EQ(check_document(bench.bench.engines.at("K1"))["fits"][0]["corrected"], true);
}

TEST_F(Temperature, SaysWhatStaysUncorrected) {
  const auto answer = bench.act(temperature, {{"part", "30"}, {"gauge", "20"}});
  EXPECT_EQ(answer->at("uncorrected"), Json({"cap"}));
}

TEST_F(Temperature, WrongWordsAreRefusedAndStoreNothing) {
  for (const Json& wrong : {Json{{"gauge", "20"}}, Json{{"part", "warm"}}, Json{{"part", "20"}, {"gauge", "500"}},
                            Json{{"part", "20"}, {"within", "-1"}}}) {
    const auto refused = bench.act(temperature, wrong);
    ASSERT_FALSE(refused) << wrong;
    EXPECT_EQ(refused.error().exit, Exit::words) << wrong;
    EXPECT_TRUE(bench.kinds().empty()) << wrong;
  }
  EXPECT_EQ(bench.act(temperature, {{"part", "20"}, {"features", {"boar"}}}).error().exit, Exit::refused);
}

TEST_F(Temperature, TheBudgetNamesTheGaugeAndTheTemperature) {
  tell({{"part", "30"}, {"gauge", "20"}, {"within", "1"}});
  read("bore/1", "83.010");
  read("piston/1", "82.950");
  const auto terms = budget(bench.view(), {{"fit", "clear"}, {"index", "1"}});
  ASSERT_TRUE(terms) << terms.error().message;
  ASSERT_EQ(terms->at("terms").size(), 4U);
  EXPECT_EQ(terms->at("terms")[0]["gauge"], "any");
  EXPECT_EQ(terms->at("terms")[1]["material"], "grey iron");
  EXPECT_EQ(terms->at("terms")[1]["within_k"], "1");
  EXPECT_EQ(terms->at("terms")[1]["value_mm"], 0.000946314);  // 11.4e-6 × 83.010 mm × 1 K
  EXPECT_EQ(budget(bench.view(), {{"fit", "lash"}, {"index", "1"}}).error().exit, Exit::refused);
}

}  // namespace
}  // namespace tenth
