#include <gtest/gtest.h>

#include "simulators/display.hpp"

namespace tenth::simulators {
namespace {

std::string sent(const Display& display, std::string_view value) {
  return frame(display, parse_amount(value).value(), display.unit).value();
}

TEST(Line, SendsTheNumberAndItsEnd) {
  EXPECT_EQ(sent({}, "83.012"), "83.012\r");
  EXPECT_EQ(sent({.end = "\r\n"}, "-0.003"), "-0.003\r\n");
  EXPECT_EQ(sent({.decimals = 0, .end = "\n"}, "7"), "7\n");
  EXPECT_EQ(sent({.decimals = 4}, "0"), "0.0000\r");
}

TEST(Line, HasItsHabits) {
  EXPECT_EQ(sent({.plus = true}, "0.004"), "+0.004\r");
  EXPECT_EQ(sent({.plus = true}, "-0.004"), "-0.004\r");
  EXPECT_EQ(sent({.point = ','}, "83.012"), "83,012\r");
  EXPECT_EQ(sent({.names_unit = true}, "83.012"), "83.012 mm\r");
  EXPECT_EQ(sent({.unit = Unit::in, .decimals = 4, .names_unit = true}, "3.2682"), "3.2682 in\r");
}

TEST(Line, RoundsToWhatItShows) {
  EXPECT_EQ(sent({.decimals = 2}, "1.005"), "1.01\r");
  EXPECT_EQ(sent({.decimals = 2}, "-1.005"), "-1.01\r");
  EXPECT_EQ(sent({.decimals = 2}, "-0.004"), "0.00\r");
}

// By hand, from the description of decimal lines: channel, number, unit, status, in that order.
TEST(Line, FillsUpToItsWidth) {
  EXPECT_EQ(sent({.width = 9}, "83.012"), "   83.012\r");
  EXPECT_EQ(sent({.width = 9}, "-83.012"), "  -83.012\r");
  EXPECT_EQ(sent({.plus = true, .width = 9, .lead = '0'}, "83.012"), "+0083.012\r");
  EXPECT_EQ(sent({.width = 9, .lead = '0'}, "-0.012"), "-0000.012\r");
  EXPECT_EQ(sent({.width = 3}, "83.012"), "83.012\r") << "no digit is cut off";
}

TEST(Line, HasChannelSuffixAndStatus) {
  EXPECT_EQ(sent({.channel = "A", .separator = " "}, "1.5"), "A 1.500\r");
  EXPECT_EQ(sent({.plus = true, .channel = "B", .separator = ":"}, "1.5"), "B:+1.500\r");
  EXPECT_EQ(sent({.width = 7, .channel = "A", .separator = ""}, "1.5"), "A  1.500\r");
  EXPECT_EQ(sent({.separator = ":"}, "1.5"), "1.500\r") << "no separator without a channel";
  EXPECT_EQ(sent({.suffix = "mm"}, "1.5"), "1.500mm\r");
  EXPECT_EQ(sent({.names_unit = true, .channel = "A", .separator = " ", .suffix = ";", .status = "K"}, "-1.5"),
            "A -1.500 mm;K\r");
}

// NR3 (IEEE 488.2, 8.7.4, from memory): a mantissa with a point, E, a signed power of ten.
TEST(Line, WritesAnExponent) {
  EXPECT_EQ(sent({.exponent = true}, "83.012"), "8.3012E+01\r");
  EXPECT_EQ(sent({.exponent = true}, "-0.004"), "-4.0E-03\r");
  EXPECT_EQ(sent({.exponent = true}, "0"), "0.0E+00\r");
  EXPECT_EQ(sent({.decimals = 0, .exponent = true}, "120"), "1.20E+02\r");
  EXPECT_EQ(sent({.point = ',', .exponent = true}, "1.5"), "1,500E+00\r");
  EXPECT_EQ(sent({.width = 12, .exponent = true}, "0.015"), "     1.5E-02\r");
}

TEST(Line, SwitchedToInchesNamesThem) {
  const Display shown{.names_unit = true, .status = "K"};
  EXPECT_EQ(frame(switched(shown, Unit::in), {25'400'000}, Unit::mm).value(), "1.0000 inK\r");
}

}  // namespace
}  // namespace tenth::simulators
