#include "simulators/slip.hpp"

#include <gtest/gtest.h>

namespace tenth::simulators {
namespace {

TEST(Spoilt, GoesWrongAsItsNameSays) {
  EXPECT_EQ(spoilt("12.345\r", Slip::none), "12.345\r");
  EXPECT_EQ(spoilt("12.345\r", Slip::half), "12.");
  EXPECT_EQ(spoilt("12.345\r", Slip::doubled), "12.3345\r");
  EXPECT_EQ(spoilt("12.345\r", Slip::dropped), "12.45\r");
  EXPECT_EQ(spoilt("12.345\r", Slip::noisy), "\xFF\x80\x13" + std::string("12.345\r"));
}

TEST(Spoilt, TheSlipsOfModbusLeaveTheBytesAlone) {
  for (const auto slip : {Slip::crc, Slip::transaction, Slip::exception}) EXPECT_EQ(spoilt("123", slip), "123");
}

}  // namespace
}  // namespace tenth::simulators
