#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>

#include "rules/stream/turning.hpp"
#include "tests/rules/stream/rocked.hpp"

namespace tenth::stream {
namespace {

using testing::Hand;
using testing::Rocked;

/// Errors in micrometres.
class Errors {
 public:
  void add(Length value, double size_mm) {
    const double error = static_cast<double>(value.pm()) * 1e-6 - size_mm * 1000;
    sum_ += error;
    squares_ += error * error;
    ++count_;
  }
  int count() const { return count_; }
  double bias() const { return sum_ / count_; }
  double root_mean_square() const { return std::sqrt(squares_ / count_); }

 private:
  int count_ = 0;
  double sum_ = 0, squares_ = 0;
};

struct Cell {
  double hz, height, noise;
  Hand hand;
};

struct Compared {
  Errors turning, smallest;
};

/// Rockings of three to eight passes, as slow as the rate of values asks for: six values in a pass or more.
Compared compare(const Cell& cell, int rockings) {
  std::mt19937_64 chance(20250101);
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(chance); };
  Compared compared;
  for (int i = 0; i < rockings; ++i) {
    Rocked rocked;
    rocked.size = between(60, 110);
    rocked.hz = cell.hz;
    rocked.height = cell.height;
    rocked.noise = cell.noise / 1000;
    rocked.resolution = i % 2 == 0 ? 0.001 : 0.0001;
    rocked.hand = cell.hand;
    rocked.pass = std::max(0.5, 6 / cell.hz) * between(1, 2);
    rocked.passes = 3 + i % 6;
    rocked.unsteady = 0.05;
    const auto samples = stream_of(rocked, chance);
    const auto turning = turning_point(samples, Length::from_pm(100'000));
    if (!turning) continue;
    compared.turning.add(turning->value, rocked.size);
    compared.smallest.add(std::ranges::min(samples, {}, &Sample::value).value, rocked.size);
  }
  return compared;
}

TEST(TurningTable, BeatsTheSmallestSampleInEveryCell) {
  constexpr int kRockings = 200;
  std::printf("errors in um      ---- turning point ----  -- smallest sample --\n");
  std::printf("  Hz height noise   bias    rms  answered    bias    rms\n");
  for (const Hand hand : {Hand::pendulum, Hand::even})
    for (const double hz : {5.0, 10.0, 20.0, 50.0})
      for (const double height : {0.3, 1.0, 3.0})
        for (const double noise : {1.0, 2.0}) {
          const Compared c = compare({hz, height, noise, hand}, kRockings);
          const double rms = c.turning.root_mean_square(), plain = c.smallest.root_mean_square();
          std::printf("%4.0f %6.1f %5.1f %6.2f %6.2f %9d  %6.2f %6.2f\n", hz, height, noise, c.turning.bias(), rms,
                      c.turning.count(), c.smallest.bias(), plain);
          EXPECT_GE(c.turning.count(), kRockings * 95 / 100);
          EXPECT_LT(rms, plain);
          EXPECT_LT(rms, 1.5);
          EXPECT_LT(std::abs(c.turning.bias()), 0.6);
        }
}

}  // namespace
}  // namespace tenth::stream
