#include <gtest/gtest.h>

#include "drivers/modbus/crc16.hpp"
#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

std::string bytes(std::initializer_list<int> values) {
  std::string text;
  for (const int value : values) text.push_back(static_cast<char>(value));
  return text;
}

std::string with_check(std::string message) {
  const unsigned crc = crc16(message);
  return message + bytes({static_cast<int>(crc & 0xFFU), static_cast<int>(crc >> 8U)});
}

Profile profile(const std::string& modbus, const std::string& value = "") {
  return parse_profile("format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n" + value + "[modbus]\n" + modbus, "m")
      .value();
}

/// What the answer to one question gives, on a serial line.
std::string answer(const Profile& of, const std::string& data) {
  const auto decoder = make_decoder(of, Unit::mm, Wire::serial);
  const std::string asked = decoder->ask();
  const auto events = decoder->feed(sound(with_check(asked.substr(0, 2) + static_cast<char>(data.size()) + data)));
  if (events.size() != 1) return std::to_string(events.size()) + " events";
  const auto* const read = std::get_if<Measurement>(&events[0]);
  return read ? read->text + " " + exact_mm(read->value) : std::string(name(std::get<Fault>(events[0]).why));
}

// Check value of CRC-16/MODBUS over the nine digits: the catalogue of parametrised CRC algorithms, from memory.
TEST(Crc16, HasThePublishedCheckValue) {
  EXPECT_EQ(crc16("123456789"), 0x4B37);
}

// The example of a request in Modbus over Serial Line V1.02 asks unit 1 for registers; bytes and check from memory.
TEST(Modbus, AsksForTheRegistersOnASerialLine) {
  EXPECT_EQ(make_decoder(profile("unit_id = 1\ntable = \"holding\"\naddress = 0\n"), Unit::mm, Wire::serial)->ask(),
            bytes({1, 3, 0, 0, 0, 2, 0xC4, 0x0B}));
  EXPECT_EQ(make_decoder(profile("unit_id = 17\naddress = 258\ntype = \"int16\"\n"), Unit::mm, Wire::serial)->ask(),
            with_check(bytes({17, 4, 1, 2, 0, 1})));
}

TEST(Modbus, NumbersItsQuestionsOnANetwork) {
  const auto decoder = make_decoder(profile("address = 7\n"), Unit::mm, Wire::network);
  EXPECT_EQ(decoder->ask(), bytes({0, 1, 0, 0, 0, 6, 1, 4, 0, 7, 0, 2}));
  EXPECT_EQ(decoder->ask(), bytes({0, 2, 0, 0, 0, 6, 1, 4, 0, 7, 0, 2}));
}

// IEEE 754: 83.5 is 42A70000.
TEST(Modbus, ReadsAFloatInEveryOrder) {
  EXPECT_EQ(answer(profile("order = \"ABCD\"\n"), bytes({0x42, 0xA7, 0, 0})), "83.5000 83.5");
  EXPECT_EQ(answer(profile("order = \"CDAB\"\n"), bytes({0, 0, 0x42, 0xA7})), "83.5000 83.5");
  EXPECT_EQ(answer(profile("order = \"BADC\"\n"), bytes({0xA7, 0x42, 0, 0})), "83.5000 83.5");
  EXPECT_EQ(answer(profile("order = \"DCBA\"\n"), bytes({0, 0, 0xA7, 0x42})), "83.5000 83.5");
}

TEST(Modbus, RoundsAFloatsExactValueHalfAwayFromZero) {
  // 0.5 = 3F000000, -0.5 = BF000000, 2.5 = 40200000, 0.1 = 3DCCCCCD (0.100000001490116…), 1e38-ish = 7E967699.
  EXPECT_EQ(answer(profile("decimals = 0\n"), bytes({0x3F, 0, 0, 0})), "1 1");
  EXPECT_EQ(answer(profile("decimals = 0\n"), bytes({0xBF, 0, 0, 0})), "-1 -1");
  EXPECT_EQ(answer(profile("decimals = 0\n"), bytes({0x40, 0x20, 0, 0})), "3 3");
  EXPECT_EQ(answer(profile("decimals = 9\n"), bytes({0x3D, 0xCC, 0xCC, 0xCD})), "0.100000001 0.100000001");
  EXPECT_EQ(answer(profile(""), bytes({0x80, 0, 0, 0})), "0.0000 0") << "minus zero";
  EXPECT_EQ(answer(profile(""), bytes({0x7E, 0x96, 0x76, 0x99})), "bad_frame") << "beyond 100 m";
  EXPECT_EQ(answer(profile(""), bytes({0x7F, 0x80, 0, 0})), "bad_frame") << "infinity";
  EXPECT_EQ(answer(profile(""), bytes({0x7F, 0xC0, 0, 0})), "bad_frame") << "no number";
  EXPECT_EQ(answer(profile("decimals = 2\n", "[value]\nscale = \"0.1\"\n"), bytes({0x3F, 0x9D, 0x70, 0xA4})),
            "1.23 0.123")
      << "rounded, then scaled";
}

TEST(Modbus, ReadsWholeNumbers) {
  const std::string micrometres = "[value]\nscale = \"0.001\"\n";
  EXPECT_EQ(answer(profile("type = \"int16\"\n", micrometres), bytes({0xFF, 0xFE})), "-2 -0.002");
  EXPECT_EQ(answer(profile("type = \"uint16\"\n", micrometres), bytes({0xFF, 0xFE})), "65534 65.534");
  EXPECT_EQ(answer(profile("type = \"uint16\"\norder = \"CDAB\"\n"), bytes({0, 2})), "2 2")
      << "one register: as on the wire";
  EXPECT_EQ(answer(profile("type = \"uint16\"\norder = \"DCBA\"\n"), bytes({2, 0})), "2 2");
  EXPECT_EQ(answer(profile("type = \"uint16\"\norder = \"BADC\"\n"), bytes({2, 0})), "2 2");
  EXPECT_EQ(answer(profile("type = \"int32\"\n", micrometres), bytes({0xFF, 0xFF, 0xFF, 0xFE})), "-2 -0.002");
  EXPECT_EQ(answer(profile("type = \"uint32\"\norder = \"CDAB\"\n", micrometres), bytes({0, 5, 0, 1})), "65541 65.541");
}

TEST(Modbus, WhatIsNotTheAnswerIsNoValue) {
  const auto told = [](const std::string& message) {
    const auto decoder = make_decoder(profile(""), Unit::mm, Wire::serial);
    decoder->ask();
    const auto events = decoder->feed(sound(message));
    return events.empty() ? std::string("nothing") : std::get<Fault>(events[0]).text;
  };
  std::string wrong = with_check(bytes({1, 4, 4, 0x42, 0xA7, 0, 0}));
  wrong.back() ^= 1;
  EXPECT_EQ(told(wrong), "the checksum is wrong");
  EXPECT_EQ(told(with_check(bytes({2, 4, 4, 0x42, 0xA7, 0, 0}))), "another unit answers");
  EXPECT_EQ(told(with_check(bytes({1, 3, 4, 0x42, 0xA7, 0, 0}))), "the answer is to another function");
  EXPECT_EQ(told(with_check(bytes({1, 4, 2, 0x42, 0xA7}))), "the answer has not as many registers as asked for");
  EXPECT_NE(told(with_check(bytes({1, 0x84, 2}))).find("exception 2"), std::string::npos);
  EXPECT_EQ(told(bytes({1, 4, 4, 0x42})), "nothing");
}

TEST(Modbus, AHalfAnswerIsAFaultWhenItsTimeIsUp) {
  const auto decoder = make_decoder(profile(""), Unit::mm, Wire::serial);
  decoder->ask();
  EXPECT_TRUE(decoder->silence().empty());
  decoder->feed(sound(bytes({1, 4, 4, 0x42})));
  EXPECT_EQ(std::get<Fault>(decoder->silence().at(0)).why, FaultReason::cut_short);
  EXPECT_TRUE(decoder->silence().empty());
}

TEST(Modbus, AByteTooManyIsNoBeginningOfTheNextAnswer) {
  const std::string right = with_check(bytes({1, 4, 4, 0x42, 0xA7, 0, 0}));
  const auto decoder = make_decoder(profile(""), Unit::mm, Wire::serial);
  decoder->ask();
  EXPECT_EQ(decoder->feed(sound(right + "x")).size(), 1U);
  decoder->ask();
  const auto events = decoder->feed(sound(right));
  ASSERT_EQ(events.size(), 2U);
  EXPECT_EQ(std::get<Fault>(events[0]).why, FaultReason::noise);
  EXPECT_EQ(std::get<Fault>(events[0]).raw, "x");
  EXPECT_TRUE(std::get<Fault>(events[0]).stale) << "the answer may still come";
  EXPECT_EQ(std::get<Measurement>(events[1]).text, "83.5000");
  decoder->feed(sound("y"));
  decoder->ask();
  EXPECT_EQ(std::get<Fault>(decoder->finish().at(0)).raw, "y") << "nothing vanishes";
}

TEST(Modbus, AnAnswerToAnEarlierQuestionIsStale) {
  const auto decoder = make_decoder(profile(""), Unit::mm, Wire::network);
  decoder->ask();
  decoder->ask();
  const auto late = decoder->feed(sound(bytes({0, 1, 0, 0, 0, 7, 1, 4, 4, 0x42, 0xA7, 0, 0})));
  ASSERT_EQ(late.size(), 1U);
  EXPECT_TRUE(std::get<Fault>(late[0]).stale);
  EXPECT_EQ(std::get<Fault>(late[0]).why, FaultReason::bad_frame);
  const auto right = decoder->feed(sound(bytes({0, 2, 0, 0, 0, 7, 1, 4, 4, 0x42, 0xA7, 0, 0})));
  EXPECT_EQ(std::get<Measurement>(right.at(0)).text, "83.5000");
  EXPECT_EQ(std::get<Measurement>(right.at(0)).raw.size(), 13U) << "the whole answer";
}

TEST(Modbus, BytesThatAreNoMessageNeverHoldUpTheNext) {
  const auto decoder = make_decoder(profile(""), Unit::mm, Wire::network);
  decoder->ask();
  const auto events = decoder->feed(sound("GET / HTTP/1.1\r\n"));
  ASSERT_FALSE(events.empty());
  for (const Event& event : events) EXPECT_EQ(std::get<Fault>(event).why, FaultReason::bad_frame);
}

}  // namespace
}  // namespace tenth::drivers
