#include "rules/length.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <vector>

namespace tenth {
namespace {

Length mm(const char* text) {
  return length_from_decimal(text, Unit::mm).value();
}
Length in(const char* text) {
  return length_from_decimal(text, Unit::in).value();
}
Length typed(const char* text, std::optional<Unit> bare = std::nullopt) {
  return parse_length(text, bare).value();
}

std::string why_not(std::string_view text, std::optional<Unit> bare = std::nullopt) {
  const auto length = parse_length(text, bare);
  if (length) return "accepted as " + exact_mm(*length);
  EXPECT_EQ(length.error().exit, Exit::words);
  EXPECT_EQ(length.error().code, "length");
  EXPECT_FALSE(length.error().remedy.empty());
  return length.error().message;
}

TEST(Decimal, ReadsWhatGaugesSend) {
  EXPECT_EQ(mm("83.0104").pm(), 83'010'400'000);
  EXPECT_EQ(mm("-0.0123").pm(), -12'300'000);
  EXPECT_EQ(mm("+0012.5").pm(), 12'500'000'000);
  EXPECT_EQ(mm("1,5").pm(), 1'500'000'000);
  EXPECT_EQ(mm(".5").pm(), 500'000'000);
  EXPECT_EQ(mm("5.").pm(), 5'000'000'000);
  EXPECT_EQ(mm("1.5e-3").pm(), 1'500'000);
  EXPECT_EQ(mm("1,5E+01").pm(), 15'000'000'000);
  EXPECT_EQ(mm("0.000000001").pm(), 1);
}

TEST(Decimal, AnInchIsExact) {
  EXPECT_EQ(in("1"), kInch);
  EXPECT_EQ(in("0.000001").pm(), 25'400);
  EXPECT_EQ(in("3.26780").pm(), 83'002'120'000);
  EXPECT_EQ(in("0.000000005").pm(), 127);  // five billionths of an inch are whole picometres
}

TEST(Decimal, MinusZeroIsZero) {
  for (const char* zero : {"-0", "-0.000", "+0", "0e99", "0000", "-.0"}) {
    EXPECT_EQ(mm(zero), Length());
    EXPECT_EQ(exact_mm(mm(zero)), "0");
  }
}

TEST(Decimal, RefusesWhatIsNoNumber) {
  for (const char* text :
       {"",   "-",   "+",     ".",     ",",  "- 1",  " 1",    "1 ",  "1.2.3", "1,2,3", "1.2,3",    "--1",
        "1e", "1e+", "1e100", "0e100", "e5", "0x1F", "1_000", "inf", "nan",   "1f",    "\xD9\xA1", "1\n"})
    EXPECT_FALSE(length_from_decimal(text, Unit::mm)) << text;
}

TEST(Decimal, RefusesFinerThanAPicometre) {
  for (const char* text : {"0.0000000001", "1.0000000001", "5e-10", "1e-99", "0.12345678901234567890"}) {
    const auto length = length_from_decimal(text, Unit::mm);
    ASSERT_FALSE(length) << text;
    EXPECT_NE(length.error().message.find("finer than a picometre"), std::string::npos) << text;
  }
  EXPECT_EQ(mm("1.00000000000000000000000000000000000000000"), Length::from_mm(1));
  EXPECT_FALSE(length_from_decimal("0.000000001", Unit::in));  // 25.4 pm
}

TEST(Decimal, RefusesBeyondAHundredMetres) {
  EXPECT_EQ(mm("100000"), kLongest);
  EXPECT_EQ(mm("-100000"), -kLongest);
  EXPECT_EQ(mm("1e5"), kLongest);
  for (const char* text : {"100000.000000001", "-100000.1", "1e6", "9e99", "999999999999999999999999999999",
                           "123456789012345678", "100000.0000000001"}) {
    const auto length = length_from_decimal(text, Unit::mm);
    ASSERT_FALSE(length) << text;
    EXPECT_NE(length.error().message.find("beyond 100 m"), std::string::npos) << text;
  }
  EXPECT_FALSE(length_from_decimal("3937.0079", Unit::in));
  EXPECT_TRUE(length_from_decimal("3937.0078", Unit::in));
}

TEST(TypedLength, TakesTheUnitsOfTheTrade) {
  EXPECT_EQ(typed("83.010 mm").pm(), 83'010'000'000);
  EXPECT_EQ(typed("83.010mm").pm(), 83'010'000'000);
  EXPECT_EQ(typed("2.5 um").pm(), 2'500'000);
  EXPECT_EQ(typed("3.2678 in"), in("3.2678"));
  EXPECT_EQ(typed("1 thou").pm(), 25'400'000);
  EXPECT_EQ(typed("-1.5tenth").pm(), -3'810'000);
  EXPECT_EQ(typed("1e1 in"), kInch * 10);
  EXPECT_EQ(typed(".5 in"), in("0.5"));
  EXPECT_EQ(typed("5. mm"), mm("5"));
}

TEST(TypedLength, ABareNumberIsInTheUnitGiven) {
  EXPECT_EQ(typed("3.2678", Unit::in), in("3.2678"));
  EXPECT_EQ(typed("3.2678", Unit::mm), mm("3.2678"));
  EXPECT_EQ(typed("1 mm", Unit::in), mm("1"));
  EXPECT_NE(why_not("3.2678").find("has no unit"), std::string::npos);
}

TEST(TypedLength, IsInTheUnitThatWasTyped) {
  for (const char* typed : {"83.01 mm", "12um"}) EXPECT_EQ(unit_typed(typed, Unit::in), Unit::mm) << typed;
  for (const char* typed : {"3.2681in", "4 thou", "2tenth"}) EXPECT_EQ(unit_typed(typed, Unit::mm), Unit::in) << typed;
  EXPECT_EQ(unit_typed("3.2681", Unit::in), Unit::in);
  EXPECT_EQ(unit_typed("1e-1", Unit::mm), Unit::mm);
}

TEST(TypedLength, TakesADecimalCommaThatCannotBeThousands) {
  EXPECT_EQ(typed("0,07 mm"), mm("0.07"));
  EXPECT_EQ(typed("0,070 mm"), mm("0.07"));
  EXPECT_EQ(typed("83,01 mm"), mm("83.01"));
  EXPECT_EQ(typed("83,0104 mm"), mm("83.0104"));
  EXPECT_NE(why_not("1,000 thou").find("thousands"), std::string::npos);
  EXPECT_NE(why_not("-83,010 mm").find("thousands"), std::string::npos);
  EXPECT_EQ(parse_length("83,010 mm", {}).error().remedy, "write 83.010 if the comma is the decimal mark");
  EXPECT_NE(why_not("1,234.5 mm").find("no length"), std::string::npos);
}

TEST(TypedLength, SaysWhatIsNoLength) {
  for (const char* text :
       {"", "mm", " mm", "83 cm", "83 MM", "83  mm", "83\tmm", "eighty mm", "83 mm mm", "1e mm", "83 H7", "83 mm "})
    EXPECT_NE(why_not(text, Unit::mm).find("is no length"), std::string::npos) << text;
  EXPECT_EQ(why_not("a\nb"), "'a\\x0Ab' is no length");
}

TEST(TypedLength, UnitsHaveNames) {
  EXPECT_EQ(parse_unit("mm"), Unit::mm);
  EXPECT_EQ(parse_unit("in"), Unit::in);
  EXPECT_EQ(name(Unit::mm), "mm");
  EXPECT_EQ(name(Unit::in), "in");
  for (const char* text : {"", "inch", "MM", "um"}) EXPECT_EQ(parse_unit(text).error().exit, Exit::words) << text;
}

TEST(Shown, ExactIsShortest) {
  EXPECT_EQ(exact_mm(mm("83.0104")), "83.0104");
  EXPECT_EQ(exact_mm(mm("-0.5")), "-0.5");
  EXPECT_EQ(exact_mm(mm("100")), "100");
  EXPECT_EQ(exact_mm(Length::from_pm(-1)), "-0.000000001");
}

TEST(Shown, FixedRoundsHalvesAwayFromZero) {
  EXPECT_EQ(fixed(mm("0.0005"), Unit::mm, 3), "0.001");
  EXPECT_EQ(fixed(mm("-0.0005"), Unit::mm, 3), "-0.001");
  EXPECT_EQ(fixed(mm("0.000499999"), Unit::mm, 3), "0.000");
  EXPECT_EQ(fixed(mm("-0.0004"), Unit::mm, 3), "0.000");
  EXPECT_EQ(fixed(in("3.26784999"), Unit::in, 4), "3.2678");
  EXPECT_EQ(fixed(in("3.26785"), Unit::in, 4), "3.2679");
  EXPECT_EQ(fixed(mm("83"), Unit::in, 4), "3.2677");
  EXPECT_EQ(fixed(mm("2.5"), Unit::mm, 0), "3");
  EXPECT_EQ(fixed(kLongest, Unit::mm, 3), "100000.000");
  EXPECT_EQ(usual_places(Unit::in), 4);
  EXPECT_EQ(usual_places(Unit::mm), 3);
}

TEST(Rounding, DividesToTheNearest) {
  EXPECT_EQ(divide_rounded(7, 2), 4);
  EXPECT_EQ(divide_rounded(-7, 2), -4);
  EXPECT_EQ(divide_rounded(4, 3), 1);
  EXPECT_EQ(divide_rounded(-5, 3), -2);
  EXPECT_EQ(divide_rounded(0, 9), 0);
}

TEST(Rounding, MeanIsRoundedOnce) {
  const std::vector<Length> pair = {Length::from_pm(1), Length::from_pm(2)};
  EXPECT_EQ(mean(pair).pm(), 2);
  const std::vector<Length> three = {Length::from_pm(-1), Length::from_pm(-1), Length::from_pm(-2)};
  EXPECT_EQ(mean(three).pm(), -1);
}

Length any_length() {
  return Length::from_pm(*rc::gen::inRange(-kLongest.pm(), kLongest.pm() + 1));
}

RC_GTEST_PROP(LengthProperty, ExactMillimetresComeBack, ()) {
  const Length length = any_length();
  RC_ASSERT(length_from_decimal(exact_mm(length), Unit::mm).value() == length);
}

RC_GTEST_PROP(LengthProperty, MillionthsOfAnInchComeBack, ()) {
  const auto millionths = *rc::gen::inRange<std::int64_t>(-3'937'007'874, 3'937'007'875);
  const Length length = Length::from_pm(millionths * 25'400);
  RC_ASSERT(length_from_decimal(fixed(length, Unit::in, 6), Unit::in).value() == length);
}

RC_GTEST_PROP(LengthProperty, UnitsAgree, ()) {
  const auto tenths = std::to_string(*rc::gen::inRange(-39'000'000, 39'000'000));
  const Length length = parse_length(tenths + " tenth", {}).value();
  RC_ASSERT(parse_length(tenths + "e-1thou", {}).value() == length);
  RC_ASSERT(parse_length(tenths + "e-4 in", {}).value() == length);
  RC_ASSERT(parse_length(tenths + "e-4", Unit::in).value() == length);
  RC_ASSERT(parse_length(exact_mm(length) + " mm", Unit::in).value() == length);
}

RC_GTEST_PROP(LengthProperty, FixedIsWithinHalfAPlace, ()) {
  const Length length = any_length();
  const int places = *rc::gen::inRange(0, 10);
  const Length shown = length_from_decimal(fixed(length, Unit::mm, places), Unit::mm).value_or(kLongest);
  Length place = Length::from_mm(1);
  for (int i = 0; i < places; ++i) place = Length::from_pm(place.pm() / 10);
  RC_ASSERT((shown - length).magnitude() * 2 <= place);
  if ((shown - length).magnitude() * 2 == place) RC_ASSERT(shown.magnitude() > length.magnitude());
}

RC_GTEST_PROP(LengthProperty, OrderIsKept, ()) {
  const Length a = any_length(), b = any_length();
  const auto read = [](Length x) { return length_from_decimal(exact_mm(x), Unit::mm).value(); };
  RC_ASSERT((read(a) < read(b)) == (a < b));
  RC_ASSERT((a - b).magnitude() == (b - a).magnitude());
}

RC_GTEST_PROP(LengthProperty, AnyTextIsAnswered, (const std::string& text)) {
  const auto length = parse_length(text, Unit::mm);
  if (length) RC_ASSERT(length->magnitude() <= kLongest);
}

}  // namespace
}  // namespace tenth
