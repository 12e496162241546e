#include "simulators/encode/registers.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <bit>

namespace tenth::simulators {
namespace {

using Words = std::vector<std::uint16_t>;

Words held(RegisterType type, std::int64_t count, ByteOrder order = ByteOrder::abcd) {
  return registers({.type = type, .order = order}, count, 3).value();
}

// By hand (IEEE 754): 12.5 is 1.5625 * 2^3: 0x41480000; -0.25 is -1 * 2^-2: 0xBE800000. 83.012 is 0x42A60625, which
// Python's struct.pack(">f", 83.012) gives too.
TEST(Registers, AFloatIsTheNumber) {
  EXPECT_EQ(held(RegisterType::float32, 12'500), (Words{0x4148, 0x0000}));
  EXPECT_EQ(held(RegisterType::float32, -250), (Words{0xBE80, 0x0000}));
  EXPECT_EQ(held(RegisterType::float32, 83'012), (Words{0x42A6, 0x0625}));
  EXPECT_EQ(held(RegisterType::float32, 0), (Words{0, 0}));
}

// 83012 is 0x00014444.
TEST(Registers, AnIntegerIsTheCount) {
  EXPECT_EQ(held(RegisterType::int32, 83'012), (Words{0x0001, 0x4444}));
  EXPECT_EQ(held(RegisterType::int32, -2), (Words{0xFFFF, 0xFFFE}));
  EXPECT_EQ(held(RegisterType::uint32, 4'000'000'000), (Words{0xEE6B, 0x2800}));
  EXPECT_EQ(held(RegisterType::int16, -12), Words{0xFFF4});
  EXPECT_EQ(held(RegisterType::uint16, 65'535), Words{0xFFFF});
}

TEST(Registers, HaveTheirOrder) {
  const auto number = [](ByteOrder order) { return held(RegisterType::float32, 83'012, order); };
  EXPECT_EQ(number(ByteOrder::cdab), (Words{0x0625, 0x42A6}));
  EXPECT_EQ(number(ByteOrder::badc), (Words{0xA642, 0x2506}));
  EXPECT_EQ(number(ByteOrder::dcba), (Words{0x2506, 0xA642}));
}

// As the contract of the profiles has it: ABCD and CDAB as on the wire, BADC and DCBA swapped.
TEST(Registers, OfSixteenBitsAreSwappedOrNot) {
  const auto number = [](ByteOrder order) { return held(RegisterType::int16, 0x1234, order); };
  EXPECT_EQ(number(ByteOrder::abcd), Words{0x1234});
  EXPECT_EQ(number(ByteOrder::cdab), Words{0x1234});
  EXPECT_EQ(number(ByteOrder::badc), Words{0x3412});
  EXPECT_EQ(number(ByteOrder::dcba), Words{0x3412});
}

TEST(Registers, RefuseWhatTheyCannotHold) {
  const auto refused = [](RegisterType type, std::int64_t count) { return !registers({.type = type}, count, 3); };
  EXPECT_TRUE(refused(RegisterType::int16, 32'768));
  EXPECT_FALSE(refused(RegisterType::int16, -32'768));
  EXPECT_TRUE(refused(RegisterType::uint16, -1));
  EXPECT_TRUE(refused(RegisterType::uint16, 65'536));
  EXPECT_TRUE(refused(RegisterType::int32, 2'147'483'648));
  EXPECT_TRUE(refused(RegisterType::uint32, 4'294'967'296));
  EXPECT_FALSE(refused(RegisterType::float32, 9'999'999'999));
}

RC_GTEST_PROP(Registers, OfAFloatAreTheNearestOne, ()) {
  const auto count = *rc::gen::inRange<std::int64_t>(-9'999'999, 9'999'999);
  const auto words = held(RegisterType::float32, count);
  const auto number = std::bit_cast<float>(static_cast<std::uint32_t>(words[0]) << 16 | words[1]);
  RC_ASSERT(number == static_cast<float>(static_cast<double>(count) / 1000));
}

}  // namespace
}  // namespace tenth::simulators
