#include "rules/decimal.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace tenth {
namespace {

TEST(Decimal, SetsThePoint) {
  EXPECT_EQ(decimal(false, "012345", 3), "12.345");
  EXPECT_EQ(decimal(true, "000123", 4), "-0.0123");
  EXPECT_EQ(decimal(false, "123456", 5), "1.23456");
  EXPECT_EQ(decimal(false, "001200", 0), "1200");
  EXPECT_EQ(decimal(false, "5", 4), "0.0005");
}

TEST(Decimal, ZeroHasNoMinusAndKeepsItsDecimals) {
  EXPECT_EQ(decimal(true, "000000", 2), "0.00");
  EXPECT_EQ(decimal(false, "0", 0), "0");
  EXPECT_EQ(decimal(true, "", 0), "0");
}

TEST(Decimal, IsTheWholeNumberAgainWithoutItsPoint) {
  EXPECT_TRUE(rc::check([] {
    const auto number = *rc::gen::inRange(0, 1'000'000);
    const auto places = *rc::gen::inRange<std::size_t>(0, 6);
    auto text = decimal(false, std::to_string(number), places);
    const auto point = text.find('.');
    RC_ASSERT((places == 0) == (point == std::string::npos));
    if (places > 0) RC_ASSERT(text.size() - point - 1 == places);
    std::erase(text, '.');
    RC_ASSERT(std::stoi(text) == number);
  }));
}

}  // namespace
}  // namespace tenth
