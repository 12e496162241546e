#include "rules/statistics/variance_interval.hpp"

#include <random>

#include "rules/statistics/distributions.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using Terms = std::vector<WeightedSquare>;

// Any textbook: freedom × mean square / chi-squared; chi-squared of 10 at 0.975 and 0.025: 20.483 and 3.247.
TEST(VarianceInterval, OneMeanSquareIsExact) {
  const Interval interval = variance_interval(Terms{{1, 4, 10}});
  EXPECT_NEAR(interval.lower, 40 / 20.483, 0.0001);
  EXPECT_NEAR(interval.upper, 40 / 3.247, 0.002);
}

TEST(VarianceInterval, WeighsAsAWhole) {
  const Interval one = variance_interval(Terms{{1, 4, 10}, {-1, 1, 5}}),
                 half = variance_interval(Terms{{0.5, 4, 10}, {-0.5, 1, 5}});
  EXPECT_NEAR(half.lower, one.lower / 2, 1e-12);
  EXPECT_NEAR(half.upper, one.upper / 2, 1e-12);
}

// The method is made so that an end of the interval of a difference is 0 exactly where Fisher's test is at its level.
TEST(VarianceInterval, ADifferenceAgreesWithFishersTest) {
  for (const auto& [above, below] :
       {std::pair(9.0, 18.0), std::pair(2.0, 18.0), std::pair(18.0, 60.0), std::pair(1.0, 4.0)}) {
    const double f = fisher_point(0.025, above, below);
    EXPECT_NEAR(variance_interval(Terms{{1, f, above}, {-1, 1, below}}).lower, 0, 1e-6) << above;
    EXPECT_GT(variance_interval(Terms{{1, f * 1.01, above}, {-1, 1, below}}).lower, 0) << above;
    const double small = fisher_point(0.975, above, below);
    EXPECT_NEAR(variance_interval(Terms{{1, small, above}, {-1, 1, below}}).upper, 0, 1e-6) << above;
    EXPECT_GT(variance_interval(Terms{{1, small * 1.01, above}, {-1, 1, below}}).upper, 0) << above;
  }
}

TEST(VarianceInterval, IsNeverBelowNothing) {
  const Interval interval = variance_interval(Terms{{1, 1, 4}, {-1, 100, 50}});
  EXPECT_EQ(interval.lower, 0);
  EXPECT_EQ(interval.upper, 0);
  EXPECT_EQ(variance_interval(Terms{{1, 0, 4}, {-1, 0, 50}}).upper, 0);
}

/// How often the interval holds the true value, when the mean squares scatter as chi-squared does.
double coverage(const Terms& truth, std::size_t draws) {
  std::mt19937_64 random(20'241'125);
  double wanted = 0;
  for (const auto& term : truth) wanted += term.weight * term.mean_square;
  std::size_t held = 0;
  for (std::size_t i = 0; i < draws; ++i) {
    Terms drawn = truth;
    for (auto& term : drawn)
      term.mean_square *= std::chi_squared_distribution<double>(term.freedom)(random) / term.freedom;
    if (variance_interval(drawn).holds(wanted)) ++held;
  }
  return static_cast<double>(held) / static_cast<double>(draws);
}

// 4000 draws scatter by 0.35 %; the method itself is known to keep 95 % within about one per cent.
TEST(VarianceInterval, HoldsTheTruthInNinetyFiveOfAHundred) {
  constexpr std::size_t kDraws = 4000;
  const double exact = coverage({{1, 2, 12}}, kDraws);
  EXPECT_NEAR(exact, 0.95, 0.0125);
  // Operators, parts, the whole gauge and reproducibility of 10 parts, 3 operators, 3 trials, with an interaction.
  EXPECT_NEAR(coverage({{1.0 / 30, 20, 2}, {-1.0 / 30, 2.7, 18}}, kDraws), 0.95, 0.02);
  EXPECT_NEAR(coverage({{1.0 / 9, 437, 9}, {-1.0 / 9, 2.7, 18}}, kDraws), 0.95, 0.02);
  EXPECT_NEAR(coverage({{1.0 / 30, 20, 2}, {0.3, 2.7, 18}, {2.0 / 3, 0.5, 60}}, kDraws), 0.95, 0.025);
  EXPECT_NEAR(coverage({{1.0 / 30, 20, 2}, {0.3, 2.7, 18}, {-1.0 / 3, 0.5, 60}}, kDraws), 0.95, 0.025);
}

}  // namespace
}  // namespace tenth::statistics
