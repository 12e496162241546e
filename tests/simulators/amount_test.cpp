#include "simulators/amount.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace tenth::simulators {
namespace {

std::int64_t millionths(std::string_view text) {
  return parse_amount(text).value().millionths;
}

TEST(Amount, ReadsDecimalsExactly) {
  EXPECT_EQ(millionths("83.012"), 83'012'000);
  EXPECT_EQ(millionths("-0.0003"), -300);
  EXPECT_EQ(millionths("+4"), 4'000'000);
  EXPECT_EQ(millionths("9999.999999"), 9'999'999'999);
  EXPECT_EQ(millionths("-0"), 0);
}

TEST(Amount, RefusesWhatIsNoDecimalOrTooLong) {
  for (const auto* text : {"", "-", ".5", "5.", "1e3", "0x10", "12345", "0.1234567", "1,5", "1.2.3", " 1", "--1"}) {
    EXPECT_FALSE(parse_amount(text)) << text;
  }
  EXPECT_NE(parse_amount("1,5").error().find("such as 83.012"), std::string::npos);
}

TEST(Amount, AddsWithoutLoss) {
  EXPECT_EQ(Amount{300} + Amount{-1000}, Amount{-700});
  EXPECT_EQ(Amount{300} - Amount{1000}, Amount{-700});
}

TEST(Steps, RoundHalvesAwayFromZero) {
  const auto count = [](std::int64_t amount) { return steps({amount}, Unit::mm, Unit::mm, 1000); };
  EXPECT_EQ(count(1499), 1);
  EXPECT_EQ(count(1500), 2);
  EXPECT_EQ(count(-1499), -1);
  EXPECT_EQ(count(-1500), -2);
}

// 1 in is 25.4 mm by definition; 83.012 / 25.4 = 3.26818898 by hand.
TEST(Steps, CrossUnitsExactly) {
  EXPECT_EQ(steps({1'000'000}, Unit::in, Unit::mm, 1000), 25'400);
  EXPECT_EQ(steps({25'400'000}, Unit::mm, Unit::in, 100), 10'000);
  EXPECT_EQ(steps({83'012'000}, Unit::mm, Unit::in, 100), 32'682);
  EXPECT_EQ(steps({-83'012'000}, Unit::mm, Unit::in, 100), -32'682);
}

RC_GTEST_PROP(Steps, LieWithinHalfAStep, ()) {
  const auto amount = *rc::gen::inRange<std::int64_t>(-9'999'999'999, 9'999'999'999);
  const auto step = *rc::gen::element<std::int64_t>(1, 10, 100, 500, 1000, 10'000, 1'000'000);
  const auto back = steps({amount}, Unit::in, Unit::in, step) * step;
  RC_ASSERT(std::abs(back - amount) * 2 <= step);
}

RC_GTEST_PROP(Steps, AreOddInTheirSign, ()) {
  const auto amount = *rc::gen::inRange<std::int64_t>(0, 9'999'999'999);
  RC_ASSERT(steps({-amount}, Unit::mm, Unit::in, 100) == -steps({amount}, Unit::mm, Unit::in, 100));
}

TEST(ParseUnit, KnowsTwo) {
  EXPECT_EQ(parse_unit("mm").value(), Unit::mm);
  EXPECT_EQ(parse_unit("in").value(), Unit::in);
  EXPECT_EQ(parse_unit("inch").error(), "'inch' is no unit: write mm or in");
}

}  // namespace
}  // namespace tenth::simulators
