#include "rules/words.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

namespace tenth {
namespace {

Length in(const char* number) {
  return length_from_decimal(number, Unit::in).value();
}
Length millimetres(const char* number) {
  return length_from_decimal(number, Unit::mm).value();
}

TEST(Words, ADistanceInInchesIsSaidInTenthsAndThou) {
  EXPECT_EQ(said(in("0.0001"), Unit::in), "one tenth");
  EXPECT_EQ(said(in("-0.0002"), Unit::in), "two tenths");
  EXPECT_EQ(said(in("0.0009"), Unit::in), "nine tenths");
  EXPECT_EQ(said(in("0.00005"), Unit::in), "half a tenth");
  EXPECT_EQ(said(in("0.00015"), Unit::in), "1.5 tenths");
  EXPECT_EQ(said(in("0.000025"), Unit::in), "0.25 tenths");
  EXPECT_EQ(said(in("0.001"), Unit::in), "one thou");
  EXPECT_EQ(said(in("0.002"), Unit::in), "two thou");
  EXPECT_EQ(said(in("0.0013"), Unit::in), "1.3 thou");
  EXPECT_EQ(said(in("0.00105"), Unit::in), "1.05 thou");
  EXPECT_EQ(said(in("0.012"), Unit::in), "12 thou");
  EXPECT_EQ(said(in("0.125"), Unit::in), "0.1250 in");
}

TEST(Words, ADistanceInMillimetresKeepsItsUnit) {
  EXPECT_EQ(said(millimetres("0.005"), Unit::mm), "0.005 mm");
  EXPECT_EQ(said(millimetres("-0.0105"), Unit::mm), "0.0105 mm");
  EXPECT_EQ(said(millimetres("1.5"), Unit::mm), "1.500 mm");
}

TEST(Words, WhatRoundsToNothingIsSaidExactly) {
  EXPECT_EQ(said(Length::from_pm(1), Unit::in), "0.000000001 mm");
  EXPECT_EQ(said(Length::from_pm(4), Unit::mm), "0.000000004 mm");
  EXPECT_EQ(said(Length(), Unit::in), "0 mm");
}

TEST(Words, WhatRoundsUpToAThouIsSaidAsOne) {
  EXPECT_EQ(said(in("0.0009999"), Unit::in), "one thou");
}

TEST(Words, ASizeStandsAgainstTheLimitItIsPastOrTheNearerOne) {
  const Limits limits{in("4.3100"), in("4.3110")};
  EXPECT_EQ(against(in("4.3108"), limits, Unit::in), "two tenths under the upper limit");
  EXPECT_EQ(against(in("4.3112"), limits, Unit::in), "two tenths over the upper limit");
  EXPECT_EQ(against(in("4.31013"), limits, Unit::in), "1.3 tenths over the lower limit");
  EXPECT_EQ(against(in("4.3080"), limits, Unit::in), "two thou under the lower limit");
  EXPECT_EQ(against(in("4.3105"), limits, Unit::in), "five tenths inside both limits");
}

TEST(Words, ASizeOnALimitIsSaidToBeOnIt) {
  const Limits limits{in("4.3100"), in("4.3110")};
  EXPECT_EQ(against(in("4.3100"), limits, Unit::in), "on the lower limit");
  EXPECT_EQ(against(in("4.3110"), limits, Unit::in), "on the upper limit");
  EXPECT_EQ(against(in("4.3100"), {in("4.3100"), in("4.3100")}, Unit::in), "on the upper limit");
}

TEST(Words, OneLimitOrNone) {
  EXPECT_EQ(against(millimetres("0.355"), {millimetres("0.35"), {}}, Unit::mm), "0.005 mm over the lower limit");
  EXPECT_EQ(against(millimetres("0.345"), {millimetres("0.35"), {}}, Unit::mm), "0.005 mm under the lower limit");
  EXPECT_EQ(against(millimetres("0.345"), {{}, millimetres("0.35")}, Unit::mm), "0.005 mm under the upper limit");
  EXPECT_EQ(against(millimetres("0.345"), {}, Unit::mm), "");
}

TEST(Words, EveryDoubtHasASentenceOfItsOwn) {
  std::set<std::string_view> told;
  for (int doubt = 0; doubt <= static_cast<int>(Doubt::gauge); ++doubt) told.insert(plainly(static_cast<Doubt>(doubt)));
  EXPECT_EQ(told.size(), 17U);
  EXPECT_FALSE(told.contains(""));
}

/// The side is judged by the exact lengths, so the words agree with the verdict however near the limit is.
RC_GTEST_PROP(Words, SayPastALimitOfWhatIsPastItAndOfNothingElse, ()) {
  const Length lower = Length::from_pm(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000));
  const Length upper = lower + Length::from_pm(*rc::gen::inRange<std::int64_t>(0, 100'000'000));
  const Length size = Length::from_pm(*rc::gen::inRange<std::int64_t>(-10'000'000, 1'200'000'000));
  const std::string words = against(size, {lower, upper}, *rc::gen::element(Unit::mm, Unit::in));
  RC_ASSERT(words.ends_with("under the lower limit") == (size < lower));
  RC_ASSERT(words.ends_with("over the upper limit") == (size > upper));
}

}  // namespace
}  // namespace tenth
