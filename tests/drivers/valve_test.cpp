#include "drivers/valve.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace tenth::drivers {
namespace {

constexpr std::int64_t second = 1'000'000'000;

Fault bad(std::size_t bytes = 1) {
  return Fault{FaultReason::bad_frame, {}, {}, bytes};
}

/// How many of `count` are told.
int told(Valve& valve, int count, std::int64_t at_ns, const Fault& fault = bad()) {
  int told = 0;
  for (int i = 0; i < count; ++i) told += valve.admit(fault, at_ns) ? 1 : 0;
  return told;
}

TEST(Valve, TellsTenAMinuteAndThenOneWithTheCount) {
  Valve valve;
  EXPECT_EQ(told(valve, 10, 0), 10);
  EXPECT_EQ(told(valve, 25, 30 * second, bad(4)), 0);
  EXPECT_TRUE(valve.release(59 * second).empty());
  const auto held = valve.release(60 * second);
  ASSERT_EQ(held.size(), 1U);
  EXPECT_EQ(held[0].why, FaultReason::bad_frame);
  EXPECT_EQ(held[0].count, 25U);
  EXPECT_EQ(held[0].bytes, 100U);
  EXPECT_TRUE(valve.release(120 * second).empty());
}

TEST(Valve, OpensAgainWhenTheMinuteIsOver) {
  Valve valve;
  EXPECT_EQ(told(valve, 10, 0), 10);
  EXPECT_EQ(told(valve, 12, 60 * second), 10);
  EXPECT_EQ(valve.release(120 * second).at(0).count, 2U);
  EXPECT_EQ(told(valve, 12, 120 * second), 10);
}

TEST(Valve, ForgetsNothingWhenItIsNotAskedInTime) {
  Valve valve;
  EXPECT_EQ(told(valve, 11, 0), 10);
  EXPECT_EQ(told(valve, 1, 500 * second), 0);
  EXPECT_EQ(valve.release(500 * second).at(0).count, 2U);
}

TEST(Valve, CountsEachReasonByItself) {
  Valve valve;
  EXPECT_EQ(told(valve, 11, 0), 10);
  EXPECT_EQ(told(valve, 11, 0, Fault{FaultReason::parity, {}, {}, 3}), 10);
  const auto held = valve.release_all();
  ASSERT_EQ(held.size(), 2U);
  EXPECT_EQ(held[0].why, FaultReason::bad_frame);
  EXPECT_EQ(held[1].why, FaultReason::parity);
  EXPECT_EQ(held[1].bytes, 3U);
}

TEST(Valve, GivesBackAllWhenThePortCloses) {
  Valve valve;
  EXPECT_TRUE(valve.release_all().empty());
  told(valve, 15, 7 * second);
  EXPECT_EQ(valve.release_all().at(0).count, 5U);
  EXPECT_TRUE(valve.release_all().empty());
  EXPECT_EQ(told(valve, 1, 8 * second), 1);
}

TEST(Valve, EveryFaultIsToldOrCountedOnceAndNoMoreThanTenAMinute) {
  EXPECT_TRUE(rc::check([] {
    const auto steps = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 20));
    Valve valve;
    std::int64_t now = 0;
    std::size_t told = 0, held = 0;
    for (const int step : steps) {
      now += step * second;
      for (const Held& one : valve.release(now)) held += one.count;
      for (int i = 0; i < 3; ++i) told += valve.admit(bad(), now) ? 1U : 0U;
    }
    for (const Held& one : valve.release_all()) held += one.count;
    RC_ASSERT(told + held == steps.size() * 3);
    RC_ASSERT(told <= 10 * static_cast<std::size_t>(now / Valve::kMinute_ns + 1));
  }));
}

}  // namespace
}  // namespace tenth::drivers
