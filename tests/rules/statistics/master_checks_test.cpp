#include "rules/statistics/master_checks.hpp"

#include "rules/statistics/distributions.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::code_of;
using testing::column;
using testing::expect_close;
using testing::Expected;

Expected want_of(const std::string& name) {
  return testing::expected("linearity_expected.json").at(name);
}

std::vector<MasterReading> master_readings(const std::string& file) {
  std::vector<MasterReading> readings;
  for (const auto& row : testing::rows(file))
    readings.push_back({testing::number(row, "reference"), testing::number(row, "value")});
  return readings;
}

TEST(BiasStudy, GivesTheFiguresOfTheManual) {
  const Expected want = want_of("bias_15"), printed = want.at("published");
  const Bias got = bias(column("bias_15.csv", "value"), 6).value();
  expect_close(got.readings.mean, want.at("mean"), "mean");
  expect_close(got.bias.value, want.at("bias"), "bias");
  expect_close(got.readings.deviation, want.at("repeatability_sd"), "deviation");
  expect_close(got.bias.error, want.at("se_bias"), "error");
  EXPECT_EQ(got.bias.freedom, 14);
  expect_close(got.bias.t.value(), want.at("t"), "t");
  expect_close(got.bias.p.value(), want.at("p_two_sided"), "p");
  expect_close(got.bias.interval.lower, want.at("ci95").at(0), "lower");
  expect_close(got.bias.interval.upper, want.at("ci95").at(1), "upper");
  EXPECT_FALSE(got.bias.real());
  EXPECT_NEAR(got.readings.deviation, printed.at("repeatability_sd").get<double>(), 0.00005);
  EXPECT_NEAR(*got.bias.t, printed.at("t").get<double>(), 0.005);
  EXPECT_NEAR(student_point(0.025, 14), printed.at("t_critical_0.975").get<double>(), 0.000005);
  EXPECT_NEAR(got.bias.interval.lower, printed.at("ci95").at(0).get<double>(), 0.000051);
  EXPECT_NEAR(got.bias.interval.upper, printed.at("ci95").at(1).get<double>(), 0.000051);
}

TEST(BiasStudy, WithoutScatterAnyBiasIsReal) {
  const Bias off = bias(std::vector<double>{83.01, 83.01, 83.01}, 83.0).value();
  EXPECT_EQ(off.bias.t, std::nullopt);
  EXPECT_EQ(off.bias.p, std::nullopt);
  EXPECT_TRUE(off.bias.real());
  const Bias on = bias(std::vector<double>{83.01, 83.01, 83.01}, 83.01).value();
  EXPECT_EQ(on.bias.value, 0);
  EXPECT_FALSE(on.bias.real());
}

TEST(BiasStudy, SeesABiasBeyondTheScatter) {
  const Bias got = bias(std::vector<double>{83.012, 83.011, 83.013, 83.012}, 83.0).value();
  EXPECT_TRUE(got.bias.real());
  EXPECT_LT(got.bias.p.value(), 0.05);
  EXPECT_EQ(code_of(bias(std::vector<double>{1, 2}, std::numeric_limits<double>::infinity())), "no_number");
}

void expect_line(const Line& got, const Expected& want) {
  EXPECT_EQ(got.count, want.at("n").get<std::size_t>());
  expect_close(got.x_mean, want.at("x_mean"), "x mean");
  expect_close(got.y_mean, want.at("y_mean"), "y mean");
  expect_close(got.slope.value, want.at("slope"), "slope");
  expect_close(got.slope.error, want.at("se_slope"), "slope's error");
  expect_close(got.slope.t.value(), want.at("t_slope"), "slope's t");
  expect_close(got.intercept.value, want.at("intercept"), "intercept");
  expect_close(got.intercept.error, want.at("se_intercept"), "intercept's error");
  expect_close(got.intercept.t.value(), want.at("t_intercept"), "intercept's t");
  expect_close(got.r_squared.value(), want.at("r_squared"), "r squared");
  expect_close(got.residual_squares, want.at("sse"), "squares");
  expect_close(got.residual_deviation, want.at("residual_sd"), "deviation");
  const double t = want.at("t_critical_0.975");
  expect_close(got.slope.interval.upper, want.at("slope").get<double>() + t * want.at("se_slope").get<double>(),
               "slope's upper end");
  expect_close(got.slope.freedom, want.at("dof"), "freedom");
}

TEST(LinearityStudy, GivesTheFiguresOfTheManual) {
  const Expected want = want_of("linearity_5x12");
  const Linearity got = linearity(master_readings("linearity_5x12.csv")).value();
  expect_line(got.line, want);
  EXPECT_NEAR(got.line.slope.value, want.at("published").at("slope").get<double>(), 0.00005);
  EXPECT_NEAR(got.line.intercept.value, want.at("published").at("intercept").get<double>(), 0.00005);
  ASSERT_EQ(got.masters.size(), 5U);
  for (const MasterBias& master : got.masters) {
    const std::string size = std::to_string(static_cast<int>(master.reference));
    expect_close(master.biases.mean, want.at("bias_by_reference").at(size).at("mean"), size);
    expect_close(master.biases.deviation, want.at("bias_by_reference").at(size).at("sd"), size);
  }
  EXPECT_FALSE(got.acceptable);  // the manual's conclusion
  EXPECT_TRUE(got.line.slope.real());
  EXPECT_TRUE(got.line.intercept.real());
}

// ISO 22514-7:2012 annex A.1 takes the value, not the bias, over the reference: its slope is one more, the rest is
// alike.
TEST(LinearityStudy, GivesTheFiguresOfTheStandard) {
  const Expected want = want_of("linearity_10x4"), printed = want.at("published");
  expect_line(fit_line(column("linearity_10x4.csv", "reference"), column("linearity_10x4.csv", "value")).value(), want);
  const Linearity got = linearity(master_readings("linearity_10x4.csv")).value();
  EXPECT_NEAR(got.line.slope.value + 1, want.at("slope").get<double>(), 1e-12);
  expect_close(got.line.intercept.value, want.at("intercept"), "intercept");
  expect_close(got.lack_f.value(), want.at("F_lack_of_fit"), "lack of fit");
  EXPECT_NEAR(*got.lack_f, printed.at("F_lack_of_fit").get<double>(), 0.00005);
  EXPECT_NEAR(fisher_point(0.05, 8, 30), printed.at("F_critical").get<double>(), 0.0001);
  EXPECT_GT(got.lack_p.value(), 0.05);
}

TEST(LinearityStudy, TheBandIsNarrowestInTheMiddle) {
  const Line line = linearity(master_readings("linearity_5x12.csv")).value().line;
  const auto width = [&](double x) { return line.band(x).upper - line.band(x).lower; };
  // At the middle the band is ± t s/√n: 2.0017 × 0.23954/√60.
  EXPECT_NEAR(width(6) / 2, 2.001717484145236 * 0.23953978864653694 / std::sqrt(60), 1e-9);
  EXPECT_LT(width(6), width(4));
  EXPECT_NEAR(width(2), width(10), 1e-12);
  EXPECT_NEAR(line.band(0).upper, line.intercept.interval.upper, 1e-12);
}

TEST(LinearityStudy, ASoundGaugeIsAcceptable) {
  const std::vector<MasterReading> readings = {{25, 25.001}, {25, 24.999}, {50, 50.001},
                                               {50, 49.999}, {75, 75.001}, {75, 74.999}};
  const Linearity got = linearity(readings).value();
  EXPECT_TRUE(got.acceptable);
  EXPECT_FALSE(got.line.slope.real());
  EXPECT_NEAR(got.lack_f.value(), 0, 1e-6);
}

TEST(LinearityStudy, OneMasterOffTheBandIsEnough) {
  std::vector<MasterReading> readings;
  for (const auto& [x, off] : {std::pair(25.0, 0.010), std::pair(50.0, 0.005), std::pair(75.0, 0.0)})
    for (const double scatter : {-0.001, 0.001}) readings.push_back({x, x + off + scatter});
  const Linearity got = linearity(readings).value();
  EXPECT_FALSE(got.masters.front().band.holds(0));
  EXPECT_TRUE(got.masters.back().band.holds(0));
  EXPECT_FALSE(got.acceptable);
}

TEST(LinearityStudy, ABendShowsAsLackOfFit) {
  std::vector<MasterReading> readings;
  for (const double x : {10.0, 20.0, 30.0, 40.0})
    for (const double scatter : {-0.001, 0.001}) readings.push_back({x, x + 0.0001 * (x - 25) * (x - 25) + scatter});
  EXPECT_LT(linearity(readings).value().lack_p.value(), 0.001);
}

/// 25.001 - 25, 50.001 - 50 and 75.001 - 75 differ in doubles; the gauge does not.
TEST(LinearityStudy, TheRoundingOfSizesIsNoSlope) {
  const Linearity got =
      linearity(std::vector<MasterReading>{{25, 25.001}, {25, 25.001}, {50, 50.001}, {75, 75.001}}).value();
  EXPECT_EQ(got.line.slope.value, 0);
  EXPECT_FALSE(got.line.slope.real());
  EXPECT_TRUE(got.line.intercept.real());
  EXPECT_EQ(got.lack_f, std::nullopt);
}

TEST(LinearityStudy, NoLackOfFitWithoutRepeatsOrWithTwoMasters) {
  EXPECT_EQ(linearity(std::vector<MasterReading>{{1, 1}, {2, 2.1}, {3, 3}}).value().lack_f, std::nullopt);
  EXPECT_EQ(linearity(std::vector<MasterReading>{{1, 1}, {1, 1.1}, {3, 3}, {3, 3.1}}).value().lack_f, std::nullopt);
  EXPECT_EQ(code_of(linearity(std::vector<MasterReading>{{83, 83.1}, {83, 83}, {83, 83.2}})), "no_span");
}

TEST(StraightLine, ThroughPointsThatLieOnItIsSure) {
  const Line line = fit_line(std::vector<double>{1, 2, 3, 4}, std::vector<double>{10.1, 10.2, 10.3, 10.4}).value();
  EXPECT_NEAR(line.slope.value, 0.1, 1e-14);
  EXPECT_EQ(line.residual_deviation, 0);
  EXPECT_EQ(line.slope.t, std::nullopt);
  EXPECT_TRUE(line.slope.real());
  EXPECT_EQ(line.r_squared, 1);
}

TEST(StraightLine, LevelPointsHaveNoShareToExplain) {
  const Line line = fit_line(std::vector<double>{1, 2, 3}, std::vector<double>{83.01, 83.01, 83.01}).value();
  EXPECT_EQ(line.slope.value, 0);
  EXPECT_EQ(line.r_squared, std::nullopt);
  EXPECT_EQ(line.at(100), 83.01);
}

/// A gauge that drifts by 1 µm in ten days, checked with a scatter of 0.2 µm.
std::vector<MasterCheck> drifting() {
  return {{0, 0.0002}, {10, 0.0008}, {20, 0.0022}, {30, 0.0028}, {40, 0.0042}, {50, 0.0048}};
}

TEST(DriftOfChecks, IsToldByTheMonth) {
  const Drift got = drift(drifting()).value();
  EXPECT_NEAR(got.line.slope.value, 0.0001, 0.00001);
  EXPECT_EQ(got.per_month.value, got.line.slope.value * 30.4375);
  EXPECT_EQ(got.per_month.interval.lower, got.line.slope.interval.lower * 30.4375);
  EXPECT_EQ(got.per_month.t, got.line.slope.t);
  EXPECT_TRUE(got.per_month.real());
}

TEST(DriftOfChecks, SaysWhenToSetAgain) {
  const Drift got = drift(drifting()).value();
  const SetAgain when = set_again(got, 0.005);
  EXPECT_NEAR(when.likely_days.value(), 0.005 / got.line.slope.value, 1e-9);
  EXPECT_NEAR(when.earliest_days.value(), 0.005 / got.line.slope.interval.upper, 1e-9);
  EXPECT_LT(*when.earliest_days, *when.likely_days);
}

TEST(DriftOfChecks, DownwardsCountsAlike) {
  auto checks = drifting();
  for (auto& check : checks) check.value = -check.value;
  const SetAgain up = set_again(drift(drifting()).value(), 0.005), down = set_again(drift(checks).value(), 0.005);
  EXPECT_NEAR(*up.earliest_days, *down.earliest_days, 1e-9);
  EXPECT_NEAR(*up.likely_days, *down.likely_days, 1e-9);
}

TEST(DriftOfChecks, AGaugeThatStandsNeedsNoSetting) {
  const Drift still = drift(std::vector<MasterCheck>{{0, 0.001}, {10, 0.001}, {20, 0.001}}).value();
  EXPECT_FALSE(still.per_month.real());
  EXPECT_EQ(set_again(still, 0.005).likely_days, std::nullopt);
  EXPECT_EQ(set_again(still, 0.005).earliest_days, std::nullopt);
  EXPECT_EQ(code_of(drift(std::vector<MasterCheck>{{5, 0.001}, {5, 0.002}, {5, 0.003}})), "no_span");
}

}  // namespace
}  // namespace tenth::statistics
