#include "rules/statistics/charts.hpp"

#include "rules/statistics/one_way.hpp"
#include "rules/statistics/range_factors.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::column;
using testing::expect_close;
using testing::Expected;

Expected want_of(const std::string& name) {
  return testing::expected("control_charts_expected.json").at(name);
}

TEST(Individuals, GiveTheChartOfTheHandbook) {
  const Expected want = want_of("individuals_flowrate"), printed = want.at("published");
  const Individuals got = individuals(column("individuals_flowrate.csv", "value")).value();
  expect_close(got.mean, want.at("mean"), "mean");
  expect_close(got.mean_range, want.at("mr_bar"), "mean range");
  expect_close(got.limits.lower, want.at("limits_d2_1.128").at("LCL"), "lower");
  expect_close(got.limits.upper, want.at("limits_d2_1.128").at("UCL"), "upper");
  expect_close(got.range_limit, want.at("mr_UCL_D4_3.267"), "range's limit", 1e-5);
  ASSERT_EQ(got.ranges.size(), 9U);
  for (std::size_t i = 0; i < 9; ++i) expect_close(got.ranges[i], want.at("moving_ranges").at(i), "range");
  EXPECT_NEAR(got.limits.upper, printed.at("UCL").get<double>(), 0.00005);
  EXPECT_NEAR(got.limits.lower, printed.at("LCL").get<double>(), 0.00005);
  EXPECT_NEAR(got.mean_range, printed.at("mr_bar").get<double>(), 0.00005);
}

TEST(Individuals, UseTheFactorsOfTwoAsTablesPrintThem) {
  const Individuals got = individuals(std::vector<double>{0, 1}).value();
  EXPECT_NEAR(1 / got.sigma, d2(2), 0.0005);
  EXPECT_NEAR(got.range_limit, range_limit_factor(2), 0.0005);
}

TEST(Individuals, ValuesAlikeHaveNoSigma) {
  const Individuals got = individuals(std::vector<double>(5, 0.001)).value();
  EXPECT_EQ(got.sigma, 0);
  EXPECT_EQ(got.limits.lower, 0.001);
  EXPECT_EQ(got.limits.upper, 0.001);
}

TEST(Ewma, GivesTheSeriesOfTheHandbook) {
  const Expected want = want_of("ewma_example");
  const auto got = ewma(column("ewma_cusum_examples.csv", "value", "series", "ewma"),
                        {want.at("start"), want.at("sigma"), want.at("lambda"), 3})
                       .value();
  ASSERT_EQ(got.size(), 20U);
  for (std::size_t i = 0; i < got.size(); ++i) {
    expect_close(got[i].value, want.at("ewma_after_t").at(i), "value");
    EXPECT_NEAR(got[i].value, want.at("published").at("ewma_after_t").at(i).get<double>(), 0.0051);
    EXPECT_FALSE(got[i].beyond);
  }
  // After 20 values the limits stand but for a share of 0.7^40.
  EXPECT_NEAR(got.back().limits.upper, want.at("UCL_asymptotic").get<double>(), 2e-6);
  EXPECT_NEAR(got.back().limits.lower, want.at("published").at("LCL").get<double>(),
              0.0002);  // it rounds 0.42008 to 0.4201
}

/// The ring samples: their means, and the deviation that the ranges of the control set give.
struct Rings {
  std::vector<double> means, ranges;
  std::vector<std::vector<double>> samples;
};

Rings rings() {
  Rings found;
  for (int sample = 1; sample <= 40; ++sample) {
    const auto values = column("pistonrings.csv", "diameter", "sample", std::to_string(sample));
    const Summary s = describe(values).value();
    found.means.push_back(s.mean);
    if (sample > 25) continue;
    found.ranges.push_back(s.most - s.least);
    found.samples.push_back(values);
  }
  return found;
}

TEST(Ewma, GivesTheLimitsOfTheRings) {
  const Expected want = want_of("pistonrings");
  const Rings data = rings();
  const double centre = describe(Values(data.means).first(25)).value().mean;
  const double sigma = describe(data.ranges).value().mean / d2(5);
  expect_close(centre, want.at("grand_mean"), "centre");
  expect_close(sigma, want.at("sigma_from_rbar"), "sigma");
  const auto got = ewma(data.means, {centre, sigma / std::sqrt(5), 0.2, 3}).value();
  for (const auto& [t, name] : {std::pair(0, "t1"), std::pair(1, "t2"), std::pair(24, "t25")}) {
    const Interval& limits = got[static_cast<std::size_t>(t)].limits;
    expect_close(limits.lower, want.at("ewma_lambda0.2_3sigma").at(name).at(0), name);
    expect_close(limits.upper, want.at("ewma_lambda0.2_3sigma").at(name).at(1), name);
    EXPECT_NEAR(limits.lower, want.at("published").at("ewma_lambda0.2_3sigma").at(name).at(0).get<double>(), 0.00001);
    EXPECT_NEAR(limits.upper, want.at("published").at("ewma_lambda0.2_3sigma").at(name).at(1).get<double>(), 0.00001);
  }
  EXPECT_TRUE(got[38].beyond);  // the later production has shifted
  EXPECT_FALSE(got[24].beyond);
}

TEST(RangeFactors, GiveTheLimitsOfTheRings) {
  const Expected want = want_of("pistonrings");
  const Rings data = rings();
  const double mean_range = describe(data.ranges).value().mean;
  const double centre = describe(Values(data.means).first(25)).value().mean;
  expect_close(mean_range * range_limit_factor(5), want.at("R").at("UCL"), "range");
  EXPECT_NEAR(mean_range * range_limit_factor(5), want.at("published").at("R_UCL").get<double>(), 1e-6);
  const double margin = 3 * mean_range / d2(5) / std::sqrt(5);
  expect_close(centre + margin, want.at("xbar_from_R").at("UCL"), "upper");
  expect_close(centre - margin, want.at("xbar_from_R").at("LCL"), "lower");
  expect_close(one_way(data.samples).value().residual_deviation, want.at("pooled_sd"), "pooled");
}

TEST(Ewma, ALambdaOfOneIsThePlainChart) {
  const std::vector<double> values = {0, 4, -4};
  const auto got = ewma(values, {0, 1, 1, 3}).value();
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(got[i].value, values[i]);
    EXPECT_EQ(got[i].limits.upper, 3);
  }
  EXPECT_FALSE(got[0].beyond);
  EXPECT_TRUE(got[1].beyond && got[2].beyond);
}

TEST(Cusum, GivesTheSeriesOfTheHandbook) {
  const Expected want = want_of("cusum_example"), printed = want.at("published");
  const auto got = cusum(column("ewma_cusum_examples.csv", "value", "series", "cusum"),
                         {want.at("target"), want.at("k"), want.at("h")})
                       .value();
  ASSERT_EQ(got.size(), 20U);
  const auto signals = want.at("signals_high_groups").get<std::vector<std::size_t>>();
  for (std::size_t i = 0; i < got.size(); ++i) {
    EXPECT_NEAR(got[i].high, want.at("S_hi").at(i).get<double>(), 1e-9) << i;
    EXPECT_NEAR(got[i].low, want.at("S_lo").at(i).get<double>(), 1e-9) << i;
    EXPECT_NEAR(got[i].high, printed.at("S_hi").at(i).get<double>(), 0.0051) << i;
    EXPECT_NEAR(got[i].low, printed.at("S_lo").at(i).get<double>(), 0.0051) << i;
    EXPECT_EQ(got[i].signals, std::ranges::count(signals, i + 1) == 1) << i;
  }
}

TEST(Cusum, SignalsOnEitherSide) {
  const std::vector<double> down(6, -2.0);
  const auto got = cusum(down, {0, 0.5, 4}).value();
  EXPECT_EQ(got[1].low, 3);
  EXPECT_FALSE(got[1].signals);
  EXPECT_TRUE(got[2].signals);
  EXPECT_EQ(got[2].high, 0);
}

}  // namespace
}  // namespace tenth::statistics
