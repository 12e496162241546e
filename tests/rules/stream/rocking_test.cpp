#include "rules/stream/rocking.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/rules/printing.hpp"
#include "tests/rules/stream/rocked.hpp"

namespace tenth::stream {
namespace {

using testing::stream_of;

constexpr Length kStep = Length::from_pm(100'000);
constexpr std::int64_t ms = 1'000'000;

/// A gauge that is fed one value after the other; what it answers is told as "83.0104" or the reason's name.
class RockingTest : public ::testing::Test {
 protected:
  std::string told(const std::optional<Rocking::Answer>& answer) {
    if (!answer) return "";
    return *answer ? fixed((*answer)->value, Unit::mm, 2) : std::string(name(answer->error()));
  }
  std::string show(Length value, std::int64_t after_ms = 50) {
    now_ns_ += after_ms * ms;
    return told(rocking_.take({now_ns_, value}));
  }
  std::string show(Length value, int times, std::int64_t after_ms) {
    std::string all;
    for (int i = 0; i < times; ++i) add(all, show(value, after_ms));
    return all;
  }
  std::string rock(const testing::Rocked& rocked) {
    std::string all;
    std::int64_t last_ns = 7000'000 * ms;
    for (const Sample& sample : stream_of(rocked)) {
      now_ns_ += sample.at_ns - last_ns;
      last_ns = sample.at_ns;
      add(all, told(rocking_.take({now_ns_, sample.value})));
    }
    return all;
  }
  static void add(std::string& all, const std::string& one) {
    if (!one.empty()) all += (all.empty() ? "" : " ") + one;
  }

  Rocking rocking_{kStep};
  std::int64_t now_ns_ = 0;
};

TEST_F(RockingTest, GivesTheTurnWhenTheGaugeIsTakenOut) {
  EXPECT_EQ(show(Length::from_mm(86), 40, 50), "");
  EXPECT_EQ(rock({}), "");
  EXPECT_EQ(show(Length::from_mm(86), 100, 50), "83.01");
}

TEST_F(RockingTest, EndsAfterEightTenthsOfASecondAway) {
  rock({.noise = 0});
  const Length smallest = std::ranges::min(stream_of({.noise = 0}), {}, &Sample::value).value;
  const Length near = smallest + Length::from_um(600);
  EXPECT_EQ(show(near, 1), "");  // 0.6 mm is still near
  EXPECT_EQ(show(near + Length::from_um(1), 799), "");
  EXPECT_EQ(show(near, 1), "");
  EXPECT_EQ(show(near + Length::from_um(1), 799), "");
  EXPECT_EQ(show(near + Length::from_um(1), 1), "83.01");
}

TEST_F(RockingTest, APauseNearTheTurnDoesNotEndIt) {
  rock({});
  EXPECT_EQ(show(Length::from_um(83'300), 100, 50), "");
  EXPECT_EQ(show(Length::from_um(83'300), 5000), "");
  EXPECT_EQ(told(rocking_.stopped()), "83.01");
}

TEST_F(RockingTest, EndsWhenTheStreamStops) {
  EXPECT_EQ(rock({}), "");
  EXPECT_EQ(told(rocking_.stopped()), "83.01");
  EXPECT_EQ(told(rocking_.stopped()), "");
}

TEST_F(RockingTest, GivesOneFaultWithTheReason) {
  rock({.passes = 2});
  EXPECT_EQ(show(Length::from_mm(86), 100, 50), "too_few");
  rock({.pass = 0.3, .passes = 9, .hz = 10});
  EXPECT_EQ(show(Length::from_mm(86), 100, 50), "too_fast");
}

TEST_F(RockingTest, ValuesThatNeverTurnGiveNothing) {
  EXPECT_EQ(told(rocking_.stopped()), "");
  EXPECT_EQ(show(Length::from_mm(86), 100, 50), "");
  EXPECT_EQ(told(rocking_.stopped()), "");
  for (int i = 0; i < 200; ++i) EXPECT_EQ(show(Length::from_um(80'000 + i * 50)), "");
  EXPECT_EQ(told(rocking_.stopped()), "");
  for (int i = 0; i < 200; ++i) EXPECT_EQ(show(Length::from_um(90'000 - i * 50)), "");
  EXPECT_EQ(told(rocking_.stopped()), "");
}

TEST_F(RockingTest, GivesOneAnswerForEachBore) {
  for (const double size : {83.0, 81.0, 84.0, 84.5, 83.5}) {
    EXPECT_EQ(rock({.size = size}), "");
    EXPECT_EQ(show(Length::from_mm(87), 40, 50), fixed(Length::from_um(std::llround(size * 1000)), Unit::mm, 2));
  }
}

TEST_F(RockingTest, WhatCameSinceTheLastNearValueBeginsTheNext) {
  EXPECT_EQ(rock({.size = 83}), "");
  EXPECT_EQ(rock({.size = 84, .pass = 0.2, .passes = 5, .hz = 50}), "83.00");  // most of it within 0.8 s
  EXPECT_EQ(show(Length::from_mm(87), 40, 50), "84.00");
}

TEST_F(RockingTest, KeepsTheStretchToTheFirstValueAway) {
  rock({});
  EXPECT_TRUE(rocking_.samples().empty());
  const std::string value = show(Length::from_mm(86), 40, 50);
  const auto stretch = rocking_.samples();
  ASSERT_GT(stretch.size(), 80U);
  const Length smallest = std::ranges::min(stretch, {}, &Sample::value).value;
  EXPECT_GT(stretch.back().value, smallest + Length::from_um(600));
  EXPECT_LE(stretch[stretch.size() - 2].value, smallest + Length::from_um(600));
  EXPECT_EQ(told(turning_point(stretch, kStep)), value);
}

TEST_F(RockingTest, ForgetsTheOlderHalfWhenFull) {
  EXPECT_EQ(show(Length::from_mm(86), 3 * static_cast<int>(Rocking::kMost), 20), "");
  rock({});
  EXPECT_EQ(told(rocking_.stopped()), "83.01");
  EXPECT_LE(rocking_.samples().size(), Rocking::kMost);
  EXPECT_GE(rocking_.samples().size(), Rocking::kMost / 2);
}

TEST_F(RockingTest, ALongRockingIsKnownByItsEnd) {
  EXPECT_EQ(rock({.size = 83, .passes = 20}), "");
  EXPECT_EQ(show(Length::from_um(83'400), 2 * static_cast<int>(Rocking::kMost), 20), "");
  EXPECT_EQ(rock({.size = 83.2}), "");
  EXPECT_EQ(told(rocking_.stopped()), "83.20");
}

TEST_F(RockingTest, BearsAnyTime) {
  for (const std::int64_t at : {INT64_MAX, INT64_MIN, INT64_MAX, std::int64_t{0}})
    for (const std::int64_t pm : {INT64_MAX, INT64_MIN, INT64_MAX}) told(rocking_.take({at, Length::from_pm(pm)}));
  told(rocking_.stopped());
  EXPECT_LE(rocking_.samples().size(), 12U);
}

}  // namespace
}  // namespace tenth::stream
