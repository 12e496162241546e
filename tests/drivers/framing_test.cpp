// How a profile's ends, start and silence tell frames apart.
#include <gtest/gtest.h>

#include "drivers/number.hpp"
#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

using Lines = std::vector<std::string>;

std::unique_ptr<Decoder> with(const std::string& frame, const std::string& value = "") {
  const auto profile = parse_profile("format = \"tenth-profile-1\"\nspeaks = \"line\"\n[frame]\n" + frame +
                                         "\n[value]\nunit = \"mm\"\npattern = '(?P<number>[-+0-9.]+)'\n" + value,
                                     "p");
  EXPECT_TRUE(profile) << profile.error().message;
  return make_decoder(*profile, std::nullopt, Wire::serial);
}

Lines told(const std::vector<Event>& events) {
  Lines lines;
  for (const Event& event : events) {
    const auto* const fault = std::get_if<Fault>(&event);
    lines.push_back(fault ? std::string(name(fault->why)) + " " + fault->raw : std::get<Measurement>(event).raw);
  }
  return lines;
}

/// The same whole and byte by byte.
Lines of(const std::string& frame, const std::string& bytes) {
  const auto whole = with(frame), split = with(frame);
  const Lines at_once = told(whole->feed(sound(bytes)));
  Lines one_by_one;
  for (const Received byte : sound(bytes))
    for (const std::string& line : told(split->feed(std::span(&byte, 1)))) one_by_one.push_back(line);
  EXPECT_EQ(at_once, one_by_one);
  return at_once;
}

TEST(Ends, TheLongestThatFitsEndsAFrame) {
  EXPECT_EQ(of("end = [\"\\r\\n\", \"\\n\"]", "1\r\n2\n3\r\n"), (Lines{"1", "2", "3"}));
  EXPECT_EQ(of("end = [\";;\", \";\"]", "1;2;;3;"), (Lines{"1", "2", "3"}));
  EXPECT_EQ(of("end = [\"END\"]", "1END2EN3END"), (Lines{"1", "bad_frame 2EN3"}));
}

TEST(Ends, WhatOnlyBeganALongerOneIsTheNextFrames) {
  EXPECT_EQ(of("end = [\"\\r\", \"\\r11\"]", "5\r16\r1"), (Lines{"5", "16"}));
  const auto decoder = with("end = [\"\\r\", \"\\r11\"]");
  decoder->feed(sound("5\r1"));
  EXPECT_EQ(told(decoder->finish()), Lines{"cut_short 1"});
}

TEST(Ends, ADamagedByteIsNone) {
  const auto decoder = with("end = [\"\\r\"]");
  auto bytes = sound("1\r2\r");
  bytes[1].damaged = true;
  EXPECT_EQ(told(decoder->feed(bytes)), Lines{"parity 1\r2"});
}

TEST(Starts, BytesBeforeOneAreNoise) {
  EXPECT_EQ(of("start = \"S\"\nend = [\"\\r\"]", "xxS1\rS2\r9\rS3\r"),
            (Lines{"noise xx", "S1", "S2", "noise 9", "S3"}));
  EXPECT_EQ(of("start = \"AB\"\nend = [\"\\r\"]", "AAB1\r"), (Lines{"noise A", "AB1"}));
  EXPECT_EQ(of("start = \"S\"\nend = [\"\\r\"]\nmost = 4", std::string(300, 'x') + "S1\r"),
            (Lines{"noise " + std::string(256, 'x'), "S1"}));
}

TEST(Starts, NoiseIsToldWhenItsBurstIsOverAndAFrameGoesOn) {
  const auto decoder = with("start = \"S\"");
  decoder->feed(sound("xx"));
  EXPECT_EQ(told(decoder->pause()), Lines{"noise xx"});
  EXPECT_TRUE(decoder->pause().empty());
  decoder->feed(sound("S1"));
  EXPECT_TRUE(decoder->pause().empty());
  EXPECT_EQ(told(decoder->feed(sound("2\r"))), Lines{"S12"});
}

TEST(Starts, ARunOfNoiseIsToldInPiecesAndTheFrameBehindItRead) {
  const Lines lines = of("start = \"S\"\nend = [\"\\r\"]", std::string(5000, 'x') + "S1\r");
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[2], "S1");
}

TEST(Starts, APatternMayHoldTheStartOrNot) {
  const auto profile = parse_profile(
      "format = \"tenth-profile-1\"\nspeaks = \"line\"\n[frame]\nstart = \"S\"\n[value]\nunit = \"mm\"\npattern = "
      "'S(?P<number>[0-9.]+)'\n",
      "p");
  ASSERT_TRUE(profile);
  EXPECT_EQ(told(make_decoder(*profile, {}, Wire::serial)->feed(sound("S1\r"))), Lines{"S1"});
}

TEST(Silence, DropsAnUnfinishedFrame) {
  const auto decoder = with("silence_ms = 50");
  EXPECT_TRUE(decoder->silence().empty());
  decoder->feed(sound("12"));
  EXPECT_EQ(told(decoder->silence()), Lines{"cut_short 12"});
  EXPECT_EQ(told(decoder->feed(sound("3\r"))), Lines{"3"});
}

TEST(Values, AreScaledThenNegatedExactly) {
  const auto value = [](const std::string& form, const std::string& frame) {
    const auto decoder = with("", form);
    const Event event = decoder->feed(sound(frame + "\r")).at(0);
    const auto* const read = std::get_if<Measurement>(&event);
    return read ? exact_mm(read->value) + " [" + read->text + "]" : std::string(name(std::get<Fault>(event).why));
  };
  EXPECT_EQ(value("scale = \"0.001\"", "83010"), "83.01 [83010]");
  EXPECT_EQ(value("scale = \"1/2000\"", "3"), "0.0015 [3]");
  EXPECT_EQ(value("scale = \"1/3\"", "1"), "bad_frame") << "no whole number of picometres";
  EXPECT_EQ(value("scale = \"1/3\"", "3"), "1 [3]");
  EXPECT_EQ(value("negate = true", "-0.5"), "0.5 [-0.5]");
  EXPECT_EQ(value("negate = true", "0"), "0 [0]");
  EXPECT_EQ(value("[limits]\nrange = [\"-1 mm\", \"1 mm\"]", "1"), "1 [1]") << "inclusive";
  EXPECT_EQ(value("[limits]\nrange = [\"-1 mm\", \"1 mm\"]", "1.000000001"), "out_of_range");
  EXPECT_EQ(value("negate = true\n[limits]\nrange = [\"0 mm\", \"1 mm\"]", "0.5"), "out_of_range") << "after the sign";
}

TEST(Values, KnowWhatTheirLastPlaceCountsIn) {
  const auto step = [](const std::string& frame, const std::string& form = "") {
    return std::get<Measurement>(with("", form)->feed(sound(frame + "\r")).at(0)).step;
  };
  EXPECT_EQ(step("83.0104"), Length::from_pm(100'000));
  EXPECT_EQ(step("83"), Length::from_mm(1));
  EXPECT_EQ(step("83010", "scale = \"0.001\""), Length::from_um(1));
  EXPECT_EQ(step("83.0", "negate = true"), Length::from_um(-100));
  EXPECT_EQ(step("3.0", "scale = \"1/3\""), Length::from_pm(33'333'333)) << "as near as may be";
}

TEST(Values, KnowTheirLastPlace) {
  EXPECT_EQ(last_place("83.0104"), -4);
  EXPECT_EQ(last_place("83,01"), -2);
  EXPECT_EQ(last_place("83"), 0);
  EXPECT_EQ(last_place("8.30104E+1"), -4);
  EXPECT_EQ(last_place("8E2"), 2);
  EXPECT_EQ(last_place("-5.e-3"), -3);
}

TEST(Status, OnlyAGoodOneIsAReading) {
  const auto decoder = decoder_of("line-status", Unit::mm);
  const auto events = decoder->feed(sound("1.5K\r1.5\r1.5L\r1.5Q\rA 1.5K\r"));
  ASSERT_EQ(events.size(), 5U);
  EXPECT_EQ(told(events), (Lines{"1.5K", "1.5", "status 1.5L", "status 1.5Q", "A 1.5K"}));
  EXPECT_EQ(std::get<Fault>(events[2]).text, "battery low");
  EXPECT_EQ(std::get<Fault>(events[3]).text, "the gauge sends the status Q");
  EXPECT_EQ(std::get<Measurement>(events[4]).channel, "A");
}

TEST(Channels, AreLettersOrNumbersBeforeTheValue) {
  const auto decoder = decoder_of("line-channels", Unit::mm);
  const auto events = decoder->feed(sound("A83.01\rB: -0.5\r1 83.5\r12:7\r83.5\r"));
  ASSERT_EQ(events.size(), 5U);
  const auto both = [&](std::size_t i) {
    return std::get<Measurement>(events[i]).channel + "=" + std::get<Measurement>(events[i]).text;
  };
  EXPECT_EQ(both(0), "A=83.01");
  EXPECT_EQ(both(1), "B=-0.5");
  EXPECT_EQ(both(2), "1=83.5");
  EXPECT_EQ(both(3), "12=7");
  EXPECT_TRUE(std::holds_alternative<Fault>(events[4])) << "a number without a channel";
}

}  // namespace
}  // namespace tenth::drivers
