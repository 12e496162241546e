#include <gtest/gtest.h>

#include "simulators/display.hpp"

namespace tenth::simulators {
namespace {

std::string sent(const Display& display, std::string_view value) {
  return frame(display, parse_amount(value).value(), display.unit).value();
}

Display query(Number number, int decimals = 3, bool plus = false) {
  return {.speaks = Speaks::query, .decimals = decimals, .end = "\n", .plus = plus, .number = number};
}

// By hand, from IEEE 488.2, 8.7.2 to 8.7.4 (from memory): NR1 digits, NR2 digits with a point, NR3 with an exponent.
TEST(EncodeQuery, Nr1IsAWholeNumber) {
  EXPECT_EQ(sent(query(Number::nr1), "83.012"), "83012\n");
  EXPECT_EQ(sent(query(Number::nr1), "-0.004"), "-4\n");
  EXPECT_EQ(sent(query(Number::nr1), "0"), "0\n");
  EXPECT_EQ(sent(query(Number::nr1, 0, true), "7"), "+7\n");
}

TEST(EncodeQuery, Nr2HasAPoint) {
  EXPECT_EQ(sent(query(Number::nr2), "83.012"), "83.012\n");
  EXPECT_EQ(sent(query(Number::nr2, 3, true), "83.012"), "+83.012\n");
  EXPECT_EQ(sent(query(Number::nr2), "-0.0004"), "0.000\n") << "minus zero is zero";
}

TEST(EncodeQuery, Nr3HasAnExponent) {
  EXPECT_EQ(sent(query(Number::nr3), "83.012"), "8.3012E+01\n");
  EXPECT_EQ(sent(query(Number::nr3, 6), "-0.000012"), "-1.2E-05\n");
  EXPECT_EQ(sent(query(Number::nr3, 6, true), "9999.999999"), "+9.999999999E+03\n");
}

}  // namespace
}  // namespace tenth::simulators
