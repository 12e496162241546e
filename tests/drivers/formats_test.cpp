#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cstdio>

#include "drivers/bcd13/bcd13.hpp"
#include "drivers/bin24/bin24.hpp"
#include "drivers/line/line.hpp"

namespace tenth::drivers {
namespace {

/// Encoders of the tests' own, from the format descriptions.
std::string hex(const char* format, unsigned value) {
  char text[16];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

std::int64_t power_of_ten(int exponent) {
  std::int64_t power = 1;
  while (exponent-- > 0) power *= 10;
  return power;
}

TEST(Line, ReadsEveryTenthOfAnInchExactly) {
  EXPECT_TRUE(rc::check([] {
    const int tenths = *rc::gen::inRange(-99'999'999, 100'000'000);
    char text[16];
    std::snprintf(text, sizeof text, "%s%d.%04d", tenths < 0 ? "-" : "+", std::abs(tenths) / 10'000,
                  std::abs(tenths) % 10'000);
    const auto read = parse_line(text, Unit::in);
    if (std::abs(tenths) / 10'000 > 3937) {
      RC_ASSERT(!read);  // beyond 100 m
    } else {
      RC_ASSERT(read->value == Length::from_pm(tenths * 2'540'000LL));
      RC_ASSERT(read->text == text);
    }
  }));
}

TEST(Line, TakesTheUnitOfTheFrameBeforeThatOfTheGauge) {
  EXPECT_EQ(parse_line("1mm", Unit::in)->value, Length::from_mm(1));
  EXPECT_EQ(parse_line("1in", std::nullopt)->value, kInch);
  EXPECT_EQ(parse_line("1", Unit::in)->value, kInch);
  EXPECT_FALSE(parse_line("1", Unit::in)->unit_in_frame);
}

TEST(Line, IsNoLengthWithoutAnyUnit) {
  EXPECT_EQ(parse_line("1", std::nullopt).error(), "the line names no unit and the gauge has none");
}

TEST(Line, SaysWhyAFrameIsBad) {
  EXPECT_NE(parse_line("1e-10", Unit::mm).error().find("picometre"), std::string::npos);
  EXPECT_NE(parse_line("9e9", Unit::mm).error().find("100 m"), std::string::npos);
  EXPECT_NE(parse_line("nan", Unit::mm).error().find("number"), std::string::npos);
}

TEST(Bcd13, ReadsEveryNumberOfEveryFrameExactly) {
  EXPECT_TRUE(rc::check([] {
    const auto number = *rc::gen::inRange(0U, 1'000'000U);
    const auto places = *rc::gen::inRange(0, 6);
    const auto minus = *rc::gen::arbitrary<bool>();
    const auto inches = *rc::gen::arbitrary<bool>();
    const auto frame =
        std::string("FFFF") + (minus ? "8" : "0") + hex("%06u", number) + std::to_string(places) + (inches ? "1" : "0");
    const std::int64_t unit_pm = inches ? 25'400'000'000 : 1'000'000'000;
    const std::int64_t pm = number * (unit_pm / power_of_ten(places)) * (minus ? -1 : 1);
    const auto read = parse_bcd13(frame);
    RC_ASSERT(bool(read) == (std::abs(pm) <= kLongest.pm()));
    if (!read) return;
    RC_ASSERT(read->value.pm() == pm);
    RC_ASSERT(read->text.starts_with('-') == (pm < 0));
    RC_ASSERT(read->unit_in_frame && read->unit == (inches ? Unit::in : Unit::mm));
  }));
}

TEST(Bcd13, AChangedDigitIsAnotherNumberOrNone) {
  EXPECT_TRUE(rc::check([] {
    std::string frame = "FFFF001234530";
    const auto at = *rc::gen::inRange<std::size_t>(0, frame.size());
    frame[at] = *rc::gen::distinctFrom(rc::gen::elementOf(std::string("0123456789ABCDEF")), frame[at]);
    const auto read = parse_bcd13(frame);
    RC_ASSERT(!read || read->text != "12.345" || read->unit != Unit::mm);
  }));
}

TEST(Bin24, ReadsAll24BitsExactly) {
  EXPECT_TRUE(rc::check([] {
    const auto bits = *rc::gen::inRange(0U, 1U << 24);
    const auto read = parse_bin24(hex("%06X", bits));
    const bool unused = (bits & 0x60'0000) != 0;
    RC_ASSERT(bool(read) == !unused);
    if (!read) return;
    const bool inches = (bits & 0x80'0000) != 0;
    const std::int64_t pm = (bits & 0x0F'FFFF) * (inches ? 12'700'000LL : 10'000'000LL);
    RC_ASSERT(read->value.pm() == ((bits & 0x10'0000) != 0 ? -pm : pm));
    RC_ASSERT(read->text.size() - read->text.find('.') - 1 == (inches ? 4U : 2U));
    RC_ASSERT(length_from_decimal(read->text, read->unit) == read->value);
  }));
}

TEST(Catalog, HasTheThreeFormatsByName) {
  ASSERT_EQ(formats().size(), 3U);
  EXPECT_EQ(formats()[0].name, "bcd13");
  EXPECT_EQ(formats()[1].name, "bin24");
  EXPECT_EQ(formats()[2].name, "line");
  EXPECT_EQ(find_format("Line"), nullptr);
  EXPECT_EQ(find_format(""), nullptr);
}

TEST(Catalog, OnlyALineNeedsTheUnitOfItsGauge) {
  EXPECT_FALSE(find_format("line")->unit_in_frame);
  EXPECT_FALSE(find_format("line")->whole_by_length);
  for (const auto* name : {"bcd13", "bin24"}) {
    EXPECT_TRUE(find_format(name)->unit_in_frame);
    EXPECT_TRUE(find_format(name)->whole_by_length);
  }
}

TEST(Catalog, DefinesEachFormatInItsOwnWords) {
  for (const Format& format : formats()) {
    EXPECT_NE(format.definition.find("speaks = \"" + format.name + "\"\n"), std::string::npos);
    EXPECT_NE(format.definition.find("title = \"" + format.title + "\"\n"), std::string::npos);
    EXPECT_TRUE(format.definition.ends_with('\n'));
  }
  EXPECT_NE(find_format("line")->definition.find("[0-9]{1,4}(?:[.,][0-9]{1,6})?"), std::string::npos);
}

TEST(Faults, HaveTheNamesOfTheDictionary) {
  EXPECT_EQ(name(FaultReason::bad_frame), "bad_frame");
  EXPECT_EQ(name(FaultReason::too_long), "too_long");
  EXPECT_EQ(name(FaultReason::cut_short), "cut_short");
  EXPECT_EQ(name(FaultReason::noise), "noise");
  EXPECT_EQ(name(FaultReason::parity), "parity");
}

}  // namespace
}  // namespace tenth::drivers
