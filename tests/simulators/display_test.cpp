#include "simulators/display.hpp"

#include <gtest/gtest.h>

namespace tenth::simulators {
namespace {

std::string sent(const Display& display, std::string_view value) {
  return frame(display, parse_amount(value).value(), display.unit).value();
}

Display bcd(Unit unit, int decimals) {
  return {.speaks = Speaks::bcd13, .unit = unit, .decimals = decimals};
}
Display bin(Unit unit) {
  return {.speaks = Speaks::bin24, .unit = unit, .decimals = 0};
}

// Worked by hand from the description: FFFF, sign, six decimals, number of decimals, unit.
TEST(Bcd13, IsThirteenDigits) {
  EXPECT_EQ(sent(bcd(Unit::mm, 3), "83.012"), "FFFF008301230\r");
  EXPECT_EQ(sent(bcd(Unit::mm, 3), "-0.012"), "FFFF800001230\r");
  EXPECT_EQ(sent(bcd(Unit::in, 4), "3.2682"), "FFFF003268241\r");
  EXPECT_EQ(sent(bcd(Unit::in, 5), "-0.00005"), "FFFF800000551\r");
  EXPECT_EQ(sent(bcd(Unit::mm, 0), "9999"), "FFFF000999900\r");
}

// By hand: 83.01 mm is 8301 steps of 0.01 mm, 0x206D; 0.0185 in is 37 steps of 0.0005 in, 0x25, with bit 23 (0x800000)
// for inch; the sign is bit 20 (0x100000).
TEST(Bin24, IsStepsWithSignAndUnit) {
  EXPECT_EQ(sent(bin(Unit::mm), "83.01"), "00206D\r");
  EXPECT_EQ(sent(bin(Unit::mm), "-83.01"), "10206D\r");
  EXPECT_EQ(sent(bin(Unit::in), "0.0185"), "800025\r");
  EXPECT_EQ(sent(bin(Unit::in), "-0.0185"), "900025\r");
  EXPECT_EQ(sent(bin(Unit::mm), "0"), "000000\r");
}

TEST(Bin24, ShowsOnlyItsSteps) {
  EXPECT_EQ(sent(bin(Unit::mm), "0.014"), "000001\r");
  EXPECT_EQ(sent(bin(Unit::in), "0.0007"), "800001\r");
  EXPECT_EQ(sent(bin(Unit::in), "0.00075"), "800002\r");
}

TEST(Frame, RefusesMoreDigitsThanItHas) {
  const auto refused = [](const Display& display, std::int64_t value) {
    return frame(display, {value * 1'000'000}, display.unit).error();
  };
  EXPECT_EQ(refused({}, 10'000), "the value is too large for the digits of a line frame");
  EXPECT_EQ(refused(bcd(Unit::mm, 3), 1000), "the value is too large for the digits of a bcd13 frame");
  EXPECT_EQ(refused(bin(Unit::in), 525), "the value is too large for the digits of a bin24 frame");
  EXPECT_TRUE(frame(bin(Unit::in), {524'000'000}, Unit::in));
}

TEST(Switched, ShowsTheSameSizeInTheOtherUnit) {
  const auto pressed = [](const Display& display, Unit unit, std::string_view value) {
    return frame(switched(display, unit), parse_amount(value).value(), display.unit).value();
  };
  EXPECT_EQ(pressed(bcd(Unit::in, 4), Unit::mm, "3.2682"), "FFFF008301230\r");  // 3.2682 × 25.4 = 83.01228
  EXPECT_EQ(pressed(bcd(Unit::mm, 3), Unit::in, "83.012"), "FFFF003268241\r");
  EXPECT_EQ(pressed(bin(Unit::in), Unit::mm, "1"), "0009EC\r");  // 2540 steps
  EXPECT_EQ(pressed({}, Unit::mm, "83.012"), "83.012\r");
}

TEST(Switched, KeepsWithinTheDecimalsOfTheFormat) {
  EXPECT_EQ(switched(bcd(Unit::mm, 5), Unit::in).decimals, 5);
  EXPECT_EQ(switched({.decimals = 6}, Unit::in).decimals, 6);
  EXPECT_EQ(switched(bcd(Unit::in, 0), Unit::mm).decimals, 0);
}

}  // namespace
}  // namespace tenth::simulators
