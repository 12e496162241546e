#include "rules/statistics/summary.hpp"

#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

TEST(Summary, OfAFewReadings) {
  const Summary s = describe(std::vector<double>{2, 4, 4, 4, 5, 5, 7, 9}).value();
  EXPECT_EQ(s.count, 8U);
  EXPECT_EQ(s.mean, 5);
  EXPECT_EQ(s.squares, 32);
  EXPECT_EQ(s.deviation, std::sqrt(32.0 / 7));
  EXPECT_EQ(s.least, 2);
  EXPECT_EQ(s.most, 9);
}

TEST(Summary, ASingleReadingHasNoDeviation) {
  const Summary s = summarize(std::vector<double>{83.01});
  EXPECT_EQ(s.mean, 83.01);
  EXPECT_EQ(s.deviation, 0);
}

TEST(Millimetres, AreTheNearestDouble) {
  EXPECT_EQ(millimetres(Length::from_pm(83'010'400'000)), 83.0104);
  EXPECT_EQ(millimetres(Length::from_pm(-1)), -1e-9);
  EXPECT_EQ(millimetres(kInch), 25.4);
  EXPECT_EQ(millimetres(kLongest), 100'000);
}

TEST(CompensatedSum, KeepsWhatAPlainSumLoses) {
  Sum sum;
  for (const double term : {1.0, 1e100, 1.0, -1e100}) sum.add(term);  // the example that goes with the method
  EXPECT_EQ(sum.value(), 2);
}

TEST(Scatter, IsNothingWithinTheRoundingOfTheNumbers) {
  EXPECT_EQ(scatter(2e-27, 2, 83), 0);      // two readings off by 3e-14, twice what a double near 83 can tell
  EXPECT_EQ(scatter(2e-18, 2, 83), 2e-18);  // by a millionth of a micrometre
  EXPECT_EQ(scatter(1e-300, 2, 0), 1e-300);
}

TEST(Interval, HoldsItsEnds) {
  const Interval interval{-1, 2};
  EXPECT_TRUE(interval.holds(-1) && interval.holds(2) && interval.holds(0));
  EXPECT_FALSE(interval.holds(-1.001) || interval.holds(2.001));
}

}  // namespace
}  // namespace tenth::statistics
