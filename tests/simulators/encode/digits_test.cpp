#include "simulators/encode/digits.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace tenth::simulators {
namespace {

TEST(Digits, OneOfTheLastDecimal) {
  EXPECT_EQ(last_decimal(0), 1'000'000);
  EXPECT_EQ(last_decimal(3), 1000);
  EXPECT_EQ(last_decimal(6), 1);
}

TEST(Digits, PaddedWithZeros) {
  EXPECT_EQ(padded(7, 3), "007");
  EXPECT_EQ(padded(1234, 3), "1234");
  EXPECT_EQ(padded(0, 0), "0");
}

TEST(Digits, FixedHasADigitBeforeThePoint) {
  EXPECT_EQ(fixed(83'012, 3, '.'), "83.012");
  EXPECT_EQ(fixed(-4, 3, ','), "0,004");
  EXPECT_EQ(fixed(12, 0, '.'), "12");
}

TEST(Digits, ScientificHasOneDigitBeforeThePoint) {
  EXPECT_EQ(scientific(83'012, 3, '.'), "8.3012E+01");
  EXPECT_EQ(scientific(-4, 3, '.'), "4.0E-03");
  EXPECT_EQ(scientific(1, 3, '.'), "1.0E-03");
  EXPECT_EQ(scientific(1000, 3, '.'), "1.000E+00");
  EXPECT_EQ(scientific(0, 6, '.'), "0.0E+00");
}

RC_GTEST_PROP(Digits, BothFormsReadBackAsTheSameNumber, ()) {
  const auto count = *rc::gen::inRange<std::int64_t>(0, 9'999'999'999);
  const auto decimals = *rc::gen::inRange(0, 7);
  const double number = std::strtod(fixed(count, decimals, '.').c_str(), nullptr);
  RC_ASSERT(std::llround(number * std::pow(10, decimals)) == count);
  RC_ASSERT(std::strtod(scientific(count, decimals, '.').c_str(), nullptr) == number);
}

}  // namespace
}  // namespace tenth::simulators
