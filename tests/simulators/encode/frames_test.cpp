#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "simulators/encode/encoders.hpp"

namespace tenth::simulators {
namespace {

/// Read back by the letter of the description: four F, sign, six decimals, number of decimals, unit.
RC_GTEST_PROP(EncodeBcd13, ReadsBack, ()) {
  const auto count = *rc::gen::inRange<std::int64_t>(-999'999, 999'999);
  const auto decimals = *rc::gen::inRange(0, 6);
  const auto unit = *rc::gen::element(Unit::mm, Unit::in);
  const auto frame = encode_bcd13({.speaks = Speaks::bcd13, .unit = unit, .decimals = decimals}, count).value();
  RC_ASSERT(frame.size() == 13U);
  RC_ASSERT(frame.substr(0, 4) == "FFFF");
  RC_ASSERT(frame[4] == (count < 0 ? '8' : '0'));
  RC_ASSERT(std::stoll(frame.substr(5, 6)) == std::abs(count));
  RC_ASSERT(frame[11] - '0' == decimals);
  RC_ASSERT(frame[12] == (unit == Unit::in ? '1' : '0'));
}

/// Bits 0-19 the steps, bit 20 minus, bits 21 and 22 unused, bit 23 inch.
RC_GTEST_PROP(EncodeBin24, ReadsBack, ()) {
  const auto count = *rc::gen::inRange<std::int64_t>(-1'048'575, 1'048'576);
  const auto unit = *rc::gen::element(Unit::mm, Unit::in);
  const auto frame = encode_bin24({.speaks = Speaks::bin24, .unit = unit}, count).value();
  RC_ASSERT(frame.size() == 6U);
  const auto bits = std::stoul(frame, nullptr, 16);
  RC_ASSERT(static_cast<std::int64_t>(bits & 0xFFFFF) == std::abs(count));
  RC_ASSERT(((bits >> 20) & 1U) == (count < 0 ? 1U : 0U));
  RC_ASSERT(((bits >> 21) & 3U) == 0U);
  RC_ASSERT((bits >> 23) == (unit == Unit::in ? 1U : 0U));
}

TEST(Encoders, RefuseTheFirstCountThatDoesNotFit) {
  const Display plain{.decimals = 3};
  EXPECT_TRUE(encode_line(plain, 9'999'999));
  EXPECT_FALSE(encode_line(plain, 10'000'000));
  EXPECT_TRUE(encode_line({.decimals = 0}, -9999));
  EXPECT_FALSE(encode_line({.decimals = 0}, -10'000));
  EXPECT_TRUE(encode_bcd13(plain, -999'999));
  EXPECT_FALSE(encode_bcd13(plain, -1'000'000));
  EXPECT_TRUE(encode_bin24(plain, -1'048'575));
  EXPECT_FALSE(encode_bin24(plain, -1'048'576));
}

}  // namespace
}  // namespace tenth::simulators
