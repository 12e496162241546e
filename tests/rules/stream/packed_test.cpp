#include "rules/stream/packed.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <limits>

#include "tests/rules/stream/rocked.hpp"

namespace tenth::stream {
namespace {

constexpr auto kLeast = std::numeric_limits<std::int64_t>::min(), kMost = std::numeric_limits<std::int64_t>::max();

Sample at(std::int64_t ns, std::int64_t pm) {
  return {ns, Length::from_pm(pm)};
}

TEST(Packed, IsWhatThePageSays) {
  EXPECT_EQ(pack({}), "");
  EXPECT_EQ(pack(std::vector{at(7'000'000'000, 83'010'000'000)}), "7000000000 83010000000 1 1");
  const std::vector samples = {at(7'000'000'000, 83'010'000'000), at(7'020'000'000, 83'016'000'000),
                               at(7'040'000'000, 83'012'000'000), at(7'050'000'000, 83'012'000'000)};
  EXPECT_EQ(pack(samples), "7000000000 83010000000 10000000 2000000 2 3 2 -2 1 0");
  EXPECT_EQ(pack(std::vector{at(5, 7), at(5, 7)}), "5 7 1 1 0 0");
}

TEST(Packed, IsCompact) {
  auto samples = testing::stream_of({.pass = 2, .passes = 20, .hz = 50});
  for (Sample& sample : samples) sample.at_ns = sample.at_ns / 1'000'000 * 1'000'000;  // a clock of milliseconds
  EXPECT_LT(pack(samples).size(), samples.size() * 8);
}

TEST(Packed, GivesBackTheEndsOfTheNumbers) {
  for (const std::int64_t a : {kLeast, kMost, std::int64_t{0}, std::int64_t{-1}})
    for (const std::int64_t b : {kLeast, kMost, std::int64_t{0}, std::int64_t{1}}) {
      const std::vector samples = {at(a, b), at(b, a), at(a, a), at(b, b)};
      const auto back = unpack(pack(samples));
      ASSERT_TRUE(back) << pack(samples);
      EXPECT_EQ(*back, samples);
    }
  const std::vector half = {at(0, 0), at(kLeast, kLeast)};  // a unit of 2⁶³ would not fit
  EXPECT_EQ(pack(half), "0 0 4611686018427387904 4611686018427387904 -2 -2");
}

TEST(Packed, RefusesWhatItDoesNotWrite) {
  for (const char* text : {" ",
                           "x",
                           "1",
                           "1 2",
                           "1 2 3",
                           "1 2 1 1 ",
                           " 1 2 1 1",
                           "1  2 1 1",
                           "1 2 1 1 5",
                           "1 2 1 1 5 6x",
                           "1 2 1 1 +5 6",
                           "1 2 1 1 5 -0",
                           "01 2 1 1",
                           "1 2 0 0",
                           "1 2 2 1",
                           "1 2 2 1 2 2 4 4",
                           "1 2 1 1 2 2",
                           "1 2 -1 1 1 1",
                           "1.5 2 1 1",
                           "1 2 1 1 99999999999999999999 1",
                           "1,2,1,1",
                           "1 2 1 1\n",
                           "nan 2 1 1"}) {
    const auto back = unpack(text);
    ASSERT_FALSE(back) << text;
    EXPECT_EQ(back.error().code, "stream");
    EXPECT_EQ(back.error().exit, Exit::words);
  }
  EXPECT_FALSE(unpack(std::string_view("1 2 1 1\0", 8)));
  EXPECT_LT(unpack(std::string(100'000, '7')).error().message.size(), 300U);
}

RC_GTEST_PROP(PackedProperties, UnpackGivesBackWhatWasPacked, ()) {
  const auto number = rc::gen::oneOf(
      rc::gen::arbitrary<std::int64_t>(), rc::gen::inRange<std::int64_t>(-50, 50),
      rc::gen::map(rc::gen::inRange<std::int64_t>(-50, 50), [](std::int64_t n) { return n * 1'000'000; }),
      rc::gen::element(kLeast, kMost));
  std::vector<Sample> samples;
  for (const auto& [ns, pm] :
       *rc::gen::container<std::vector<std::pair<std::int64_t, std::int64_t>>>(rc::gen::pair(number, number)))
    samples.push_back(at(ns, pm));
  const auto back = unpack(pack(samples));
  RC_ASSERT(back.has_value());
  RC_ASSERT(*back == samples);
}

RC_GTEST_PROP(PackedProperties, WhatIsUnpackedPacksToTheSameText, ()) {
  const auto text = *rc::gen::container<std::string>(rc::gen::element('0', '1', '2', '7', '-', ' ', ' '));
  const auto back = unpack(text);
  if (back) RC_ASSERT(pack(*back) == text);
}

}  // namespace
}  // namespace tenth::stream
