#include "rules/uncertainty.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;

Length pm(std::int64_t picometres) {
  return Length::from_pm(picometres);
}

TEST(RootSumOfSquares, IsExactWhereItIsWhole) {
  EXPECT_EQ(root_sum_of_squares(pm(3), pm(4)), pm(5));
  EXPECT_EQ(root_sum_of_squares(pm(0), pm(7)), pm(7));
  EXPECT_EQ(root_sum_of_squares(pm(0), pm(0)), pm(0));
  EXPECT_EQ(root_sum_of_squares(pm(3'000'000'000), pm(4'000'000'000)), pm(5'000'000'000));
}

TEST(RootSumOfSquares, IsRoundedUp) {
  EXPECT_EQ(root_sum_of_squares(pm(1), pm(1)), pm(2));
  EXPECT_EQ(root_sum_of_squares(pm(2), pm(1)), pm(3));
  EXPECT_EQ(root_sum_of_squares(pm(1'000'000), pm(1'000'000)), pm(1'414'214));
}

TEST(RootSumOfSquares, HoldsForTheLongestLengths) {
  // 141 421 356 237 309.50… pm: root two of 100 m.
  EXPECT_EQ(root_sum_of_squares(kLongest, kLongest), pm(141'421'356'237'310));
}

RC_GTEST_PROP(RootSumOfSquares, IsTheLeastWholeNumberNotBelow, ()) {
  const auto a = *rc::gen::inRange<std::int64_t>(0, 1'000'000'000);  // to 1 mm, so squares fit 64 bits
  const auto b = *rc::gen::inRange<std::int64_t>(0, 1'000'000'000);
  const std::int64_t root = root_sum_of_squares(pm(a), pm(b)).pm();
  RC_ASSERT(root * root >= a * a + b * b);
  RC_ASSERT(root == 0 || (root - 1) * (root - 1) < a * a + b * b);
}

TEST(Larger, OneWithoutLeavesNone) {
  EXPECT_EQ(larger(pm(2), pm(3)), pm(3));
  EXPECT_EQ(larger(pm(3), pm(2)), pm(3));
  EXPECT_EQ(larger(pm(3), {}), std::nullopt);
  EXPECT_EQ(larger({}, pm(3)), std::nullopt);
}

// Two-sided shares of the normal distribution within one, two and three standard deviations: 0.682689, 0.954500,
// 0.997300 (standard tables).
TEST(Conforming, InTheMiddleOfItsLimits) {
  EXPECT_NEAR(conforming(len("10"), limits("9.99", "10.01"), len("0.02")), 0.682689, 1e-6);
  EXPECT_NEAR(conforming(len("10"), limits("9.98", "10.02"), len("0.02")), 0.954500, 1e-6);
  EXPECT_NEAR(conforming(len("10"), limits("9.97", "10.03"), len("0.02")), 0.997300, 1e-6);
}

TEST(Conforming, OneLimitAlone) {
  EXPECT_NEAR(conforming(len("10"), limits("", "10.01"), len("0.02")), 0.841345, 1e-6);
  EXPECT_NEAR(conforming(len("10"), limits("10.01", ""), len("0.02")), 0.158655, 1e-6);
}

TEST(Conforming, WithoutAnyUncertaintyItIsSure) {
  EXPECT_EQ(conforming(len("10"), limits("10", "10.01"), Length()), 1);
  EXPECT_EQ(conforming(len("9.999999999"), limits("10", "10.01"), Length()), 0);
  EXPECT_EQ(conforming(len("10.01"), limits("", "10.01"), Length()), 1);
  EXPECT_EQ(conforming(len("10.010000001"), limits("10", "10.01"), Length()), 0);
}

}  // namespace
}  // namespace tenth
