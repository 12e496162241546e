#include "simulators/encode/crc16.hpp"

#include <gtest/gtest.h>

namespace tenth::simulators {
namespace {

using namespace std::string_view_literals;

// The published check value of CRC-16/MODBUS: that of the nine digits.
TEST(Crc16, HasItsCheckValue) {
  EXPECT_EQ(crc16("123456789"), 0x4B37);
}

// Questions as they stand in many a manual (common practice, from memory): 01 04 00 00 00 01 31 CA, low byte first, and
// 01 03 00 00 00 0A C5 CD.
TEST(Crc16, OfKnownQuestions) {
  EXPECT_EQ(crc16("\x01\x04\0\0\0\x01"sv), 0xCA31);
  EXPECT_EQ(crc16("\x01\x03\0\0\0\x0A"sv), 0xCDC5);
}

TEST(Crc16, OfNothingIsItsBeginning) {
  EXPECT_EQ(crc16(""), 0xFFFF);
}

}  // namespace
}  // namespace tenth::simulators
