#include "rules/spoken.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

namespace tenth {
namespace {

/// English as far as the tests need it.
NumberWords english() {
  NumberWords words;
  const std::array<std::string, 20> first = {
      "zero", "one",    "two",    "three",    "four",     "five",    "six",     "seven",     "eight",    "nine",
      "ten",  "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
  const std::array<std::string, 10> tens = {"",      "",      "twenty",  "thirty", "forty",
                                            "fifty", "sixty", "seventy", "eighty", "ninety"};
  for (std::size_t n = 0; n < 100; ++n)
    words.small[n] = n < 20 ? first[n] : n % 10 == 0 ? tens[n / 10] : tens[n / 10] + "-" + first[n % 10];
  for (std::size_t n = 0; n < 9; ++n) words.hundreds[n] = first[n + 1] + " hundred";
  words.join = " ", words.point = "point", words.minus = "minus", words.inch_by_thou = true;
  words.oh = "oh", words.hundred = "hundred", words.even = "even", words.also = "and";
  words.thou = "thou", words.tenth = "tenth", words.tenths = "tenths";
  words.micron = "micron", words.microns = "microns", words.mm = "millimetres", words.in = "inches";
  return words;
}

std::string size(const std::string& number, Unit unit) {
  return spoken_size(length_from_decimal(number, unit).value(), unit, english());
}

std::string distance(const std::string& number, Unit unit) {
  return spoken_distance(length_from_decimal(number, unit).value(), unit, english());
}

TEST(Spoken, InchesAsTheTradeSaysThem) {
  EXPECT_EQ(size("4.3102", Unit::in), "four three ten and two tenths");
  EXPECT_EQ(size("4.3100", Unit::in), "four three ten");
  EXPECT_EQ(size("4.3001", Unit::in), "four three hundred and one tenth");
  EXPECT_EQ(size("3.7805", Unit::in), "three seven eighty and five tenths");
  EXPECT_EQ(size("2.3450", Unit::in), "two three forty-five");
  EXPECT_EQ(size("2.3050", Unit::in), "two three oh five");
  EXPECT_EQ(size("4.0270", Unit::in), "four oh twenty-seven");
  EXPECT_EQ(size("4.0053", Unit::in), "four oh oh five and three tenths");
  EXPECT_EQ(size("4.0002", Unit::in), "four even and two tenths");
  EXPECT_EQ(size("12", Unit::in), "twelve even");
}

TEST(Spoken, LessThanAnInchInThou) {
  EXPECT_EQ(size("0.0175", Unit::in), "seventeen thou and five tenths");
  EXPECT_EQ(size("0.1875", Unit::in), "one hundred eighty-seven thou and five tenths");
  EXPECT_EQ(size("0.0027", Unit::in), "two thou and seven tenths");
  EXPECT_EQ(size("0.0007", Unit::in), "seven tenths");
  EXPECT_EQ(size("0.0001", Unit::in), "one tenth");
  EXPECT_EQ(size("0", Unit::in), "zero");
  EXPECT_EQ(size("-0.0012", Unit::in), "minus one thou and two tenths");
}

TEST(Spoken, FinerThanATenth) {
  EXPECT_EQ(size("4.31025", Unit::in), "four three ten and two point five tenths");
  EXPECT_EQ(size("4.31005", Unit::in), "four three ten and zero point five tenths");
  EXPECT_EQ(size("4.31012", Unit::in), "four three ten and one point two tenths");
}

TEST(Spoken, MillimetresDigitByDigitBehindThePoint) {
  EXPECT_EQ(size("83.012", Unit::mm), "eighty-three point zero one two");
  EXPECT_EQ(size("83.0124", Unit::mm), "eighty-three point zero one two four");
  EXPECT_EQ(size("101.6", Unit::mm), "one hundred one point six zero zero");
  EXPECT_EQ(size("0.05", Unit::mm), "zero point zero five zero");
  EXPECT_EQ(size("-0.003", Unit::mm), "minus zero point zero zero three");
  EXPECT_EQ(size("1250", Unit::mm), "one two five zero point zero zero zero");
}

TEST(Spoken, DistancesInTheUnitsOfTheTrade) {
  EXPECT_EQ(distance("0.0001", Unit::in), "one tenth");
  EXPECT_EQ(distance("0.0003", Unit::in), "three tenths");
  EXPECT_EQ(distance("0.00005", Unit::in), "zero point five tenths");
  EXPECT_EQ(distance("-0.00115", Unit::in), "one thou and one point five tenths");
  EXPECT_EQ(distance("0.012", Unit::in), "twelve thou");
  EXPECT_EQ(distance("1.5", Unit::in), "one point five zero zero zero inches");
  EXPECT_EQ(distance("0.001", Unit::mm), "one micron");
  EXPECT_EQ(distance("0.0025", Unit::mm), "two point five microns");
  EXPECT_EQ(distance("-0.012", Unit::mm), "twelve microns");
  EXPECT_EQ(distance("0.12", Unit::mm), "zero point one two zero millimetres");
}

TEST(Spoken, WithoutTheTradesWayInchesAreReadOut) {
  NumberWords words = english();
  words.inch_by_thou = false;
  EXPECT_EQ(spoken_size(length_from_decimal("4.3102", Unit::in).value(), Unit::in, words),
            "four point three one zero two");
}

TEST(Spoken, CountsBeyondNineHundredAreReadOut) {
  EXPECT_EQ(spoken_count(0, english()), "zero");
  EXPECT_EQ(spoken_count(300, english()), "three hundred");
  EXPECT_EQ(spoken_count(312, english()), "three hundred twelve");
  EXPECT_EQ(spoken_count(1204, english()), "one two zero four");
  EXPECT_EQ(spoken_count(-7, english()), "minus seven");
}

/// No two sizes sound the same: every tenth of the first eleven inches.
TEST(Spoken, EverySizeHasItsOwnWords) {
  const NumberWords words = english();
  std::set<std::string> heard;
  constexpr std::int64_t kTenths = 110'000, kTenth_pm = 2'540'000;
  for (std::int64_t n = 0; n < kTenths; ++n) heard.insert(spoken_size(Length::from_pm(n * kTenth_pm), Unit::in, words));
  EXPECT_EQ(heard.size(), static_cast<std::size_t>(kTenths));
}

RC_GTEST_PROP(SpokenProperty, MillimetresSayTheDigitsThatAreShown, ()) {
  const auto um = *rc::gen::inRange<std::int64_t>(0, 999'999);
  const NumberWords words = english();
  std::string expected = spoken_count(um / 1000, words) + " point";
  for (const std::int64_t place : {100, 10, 1})
    expected += " " + words.small[static_cast<std::size_t>(um / place % 10)];
  RC_ASSERT(spoken_size(Length::from_um(um), Unit::mm, words) == expected);
}

}  // namespace
}  // namespace tenth
