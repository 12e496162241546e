#include "rules/stream/even.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "rules/stream/turning.hpp"

namespace tenth::stream {
namespace {

constexpr double kTurn_mm = 83.0135;

struct Way {
  double jitter_s = 0;  ///< each value is handed on so much late at most
  int together = 1;     ///< so many values are handed on at once
  int lost_at = -1;     ///< this value never arrives
};

/// A gauge that sends ten values a second while it is rocked, one turn in 0.75 s.
std::vector<Sample> rocked(const Way& way, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> part(0, 1);
  std::vector<Sample> samples;
  double handed_on = 0;
  for (int i = 0; i < 60; ++i) {
    const double sent = 0.1 * i;
    const double mm = kTurn_mm + 0.4 * std::pow(std::sin(M_PI * (sent + 0.03 * seed) / 0.75), 2);
    const double whole = 0.1 * (i / way.together + 1) * way.together;
    handed_on = std::max(handed_on, (way.together > 1 ? whole : sent) + way.jitter_s * part(random));
    if (i != way.lost_at)
      samples.push_back({std::llround(handed_on * 1e9), Length::from_pm(std::llround(mm * 1e4) * 100'000)});
  }
  return samples;
}

int found(const Way& way, double within_um) {
  int good = 0;
  for (unsigned seed = 0; seed < 50; ++seed) {
    const auto turning = turning_point(rocked(way, seed), Length::from_pm(10'000));
    good += turning && std::fabs(static_cast<double>(turning->value.pm()) * 1e-9 - kTurn_mm) * 1e3 <= within_um ? 1 : 0;
  }
  return good;
}

TEST(Even, TimesThatAreEvenStay) {
  const auto samples = rocked({}, 1);
  EXPECT_EQ(evened(samples), samples);
  EXPECT_TRUE(evened({}).empty());
}

TEST(Even, JitterIsTakenOut) {
  const auto samples = rocked({.jitter_s = 0.08}, 1);
  const auto even = evened(samples);
  ASSERT_EQ(even.size(), samples.size());
  for (std::size_t i = 1; i < even.size(); ++i) {
    EXPECT_NEAR(static_cast<double>(even[i].at_ns - even[i - 1].at_ns), 1e8, 2e6) << i;
    EXPECT_EQ(even[i].value, samples[i].value);
  }
}

TEST(Even, APauseIsNoJitter) {
  auto samples = rocked({.jitter_s = 0.08}, 1);
  for (std::size_t i = 30; i < samples.size(); ++i) samples[i].at_ns += 5'000'000'000;
  EXPECT_EQ(evened(samples), samples);
}

/// Nobody sends at the end of time, but a ledger that somebody made up may say so.
TEST(Even, TheEndOfTimeIsNotPassed) {
  std::vector<Sample> samples;
  for (std::int64_t i = 0; i < 20; ++i) {
    const Wide at_ns = Wide{INT64_MAX} - 1'850'000'000 + i * 100'000'000 + i % 2 * 40'000'000;
    samples.push_back({static_cast<std::int64_t>(std::min<Wide>(at_ns, INT64_MAX)), Length::from_mm(83)});
  }
  const auto even = evened(samples);
  EXPECT_NE(even, samples) << "its jitter is taken out";
  EXPECT_EQ(even.back().at_ns, INT64_MAX);
}

/// Without the evening most of these are refused, or are off by several micrometres.
TEST(Even, ARockingIsReadThroughAnUnevenWay) {
  EXPECT_EQ(found({}, 2.0), 50);
  EXPECT_GE(found({.jitter_s = 0.03}, 3.0), 48);
  EXPECT_GE(found({.jitter_s = 0.08}, 3.0), 48);
  EXPECT_GE(found({.together = 3}, 3.0), 48);
}

TEST(Even, AValueThatWasLostLeavesNoWrongOne) {
  int wrong = 0;
  for (int lost = 5; lost < 55; ++lost) {
    const auto turning = turning_point(rocked({.jitter_s = 0.01, .lost_at = lost}, 7), Length::from_pm(10'000));
    wrong += turning && std::fabs(static_cast<double>(turning->value.pm()) * 1e-9 - kTurn_mm) > 0.01 ? 1 : 0;
  }
  EXPECT_EQ(wrong, 0);
}

}  // namespace
}  // namespace tenth::stream
