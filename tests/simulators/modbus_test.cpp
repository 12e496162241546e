#include "simulators/modbus.hpp"

#include <gtest/gtest.h>

namespace tenth::simulators {
namespace {

using namespace std::string_literals;

std::string rtu_pdu(std::string heard) {
  const auto question = take_rtu(heard);
  return question ? question->pdu : "none";
}

// A question of many a manual (common practice, from memory): unit 1, function 4, register 0, one of them.
const auto kRtu = "\x01\x04\0\0\0\x01\x31\xCA"s;
const auto kTcp = "\x12\x34\0\0\0\x06\x11\x04\0\0\0\x01"s;

TEST(TakeRtu, TakesAWholeQuestion) {
  auto heard = kRtu + kRtu.substr(0, 3);
  const auto question = take_rtu(heard).value();
  EXPECT_EQ(question.unit_id, 1);
  EXPECT_EQ(question.pdu, kRtu.substr(1, 5));
  EXPECT_FALSE(question.transaction);
  EXPECT_EQ(heard, kRtu.substr(0, 3));
  EXPECT_FALSE(take_rtu(heard));
}

TEST(TakeRtu, FindsItBehindNoise) {
  EXPECT_EQ(rtu_pdu("\xFF\0\x01"s + kRtu), kRtu.substr(1, 5));
  EXPECT_EQ(rtu_pdu(kRtu.substr(0, 7) + kRtu), kRtu.substr(1, 5)) << "behind a broken one";
}

TEST(TakeRtu, AWrongCrcIsNoQuestion) {
  auto wrong = kRtu;
  wrong[7] = '\xCB';
  EXPECT_EQ(rtu_pdu(wrong), "none");
}

TEST(TakeTcp, TakesAWholeQuestion) {
  auto heard = kTcp + kTcp.substr(0, 9);
  const auto question = take_tcp(heard).value();
  EXPECT_EQ(question.transaction, 0x1234);
  EXPECT_EQ(question.unit_id, 0x11);
  EXPECT_EQ(question.pdu, kTcp.substr(7));
  EXPECT_EQ(heard, kTcp.substr(0, 9)) << "the next may come in pieces";
  EXPECT_FALSE(take_tcp(heard));
  heard += kTcp.substr(9);
  EXPECT_TRUE(take_tcp(heard));
}

TEST(TakeTcp, DropsWhatIsNoModbus) {
  for (const auto& wrong : {"\0\1\0\1\0\6\1\4\0\0\0\1"s, "\0\1\0\0\0\1\1\4\0\0\0\1"s, "\0\1\0\0\1\6\1\4\0\0\0\1"s}) {
    auto heard = wrong;
    EXPECT_FALSE(take_tcp(heard));
    EXPECT_EQ(heard, "") << "protocol, too short, too long";
  }
}

// The examples of the Modbus Application Protocol V1.1b3, 6.3 and 6.4 (from memory).
TEST(Answer, IsThatOfTheStandardsExamples) {
  const Registers holding = {{0x6B, 0x022B}, {0x6C, 0x0000}, {0x6D, 0x0064}}, input = {{8, 0x000A}};
  EXPECT_EQ(answer({{}, 1, "\x03\x00\x6B\x00\x03"s}, input, holding), "\x03\x06\x02\x2B\x00\x00\x00\x64"s);
  EXPECT_EQ(answer({{}, 1, "\x04\x00\x08\x00\x01"s}, input, holding), "\x04\x02\x00\x0A"s);
}

TEST(Answer, ExceptionsAreTheFunctionWithItsHighBitAndACode) {
  const Registers input = {{0, 1}, {1, 2}};
  const auto answered = [&](const std::string& pdu) { return answer({{}, 1, pdu}, input, {}); };
  EXPECT_EQ(answered("\x06\0\0\0\x01"s), "\x86\x01") << "no such function";
  EXPECT_EQ(answered("\x04\0\x02\0\x01"s), "\x84\x02") << "no such register";
  EXPECT_EQ(answered("\x04\0\x01\0\x02"s), "\x84\x02") << "the second is not there";
  EXPECT_EQ(answered("\x03\0\0\0\x01"s), "\x83\x02") << "not in this table";
  EXPECT_EQ(answered("\x04\0\0\0\0"s), "\x84\x03") << "none";
  EXPECT_EQ(answered("\x04\0\0\0\x7E"s), "\x84\x03") << "more than 125";
  EXPECT_EQ(answered("\x04\0\0"s), "\x84\x03") << "broken off";
}

TEST(AsksFor, TheTableAndTheFirstRegister) {
  const Question question{{}, 1, "\x03\0\x10\0\x02"s};
  EXPECT_TRUE(asks_for(question, {.table = Table::holding, .address = 16}));
  EXPECT_FALSE(asks_for(question, {.table = Table::input, .address = 16}));
  EXPECT_FALSE(asks_for(question, {.table = Table::holding, .address = 17}));
  EXPECT_FALSE(asks_for({{}, 1, "\x03\0"s}, {.table = Table::holding, .address = 16}));
}

TEST(Framed, AsTheQuestionWas) {
  EXPECT_EQ(framed({{}, 1, "\x04"}, kRtu.substr(1, 5), Slip::none), kRtu);
  EXPECT_EQ(framed({0x1234, 0x11, "\x04"}, kTcp.substr(7), Slip::none), kTcp);
}

TEST(Framed, SpoilsCrcOrTransaction) {
  const auto wrong_crc = framed({{}, 1, "\x04"}, kRtu.substr(1, 5), Slip::crc);
  EXPECT_EQ(wrong_crc.substr(0, 6), kRtu.substr(0, 6));
  EXPECT_EQ(rtu_pdu(wrong_crc), "none");
  const auto wrong_transaction = framed({0x1234, 0x11, "\x04"}, kTcp.substr(7), Slip::transaction);
  EXPECT_EQ(wrong_transaction, "\x12\x35"s + kTcp.substr(2));
}

}  // namespace
}  // namespace tenth::simulators
