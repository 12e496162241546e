#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

#include "rules/stream/sample.hpp"

namespace tenth::stream::testing {

/// How the hand leads the gauge from one end of its swing to the other.
enum class Hand { pendulum, even };

/// A bore gauge that is rocked: it stands askew by an angle and shows size / cos angle. Lengths in mm, times in
/// seconds.
struct Rocked {
  double size = 83.0104;
  double height = 1;  ///< that the gauge rises from its turn to each end of a swing that is not askew
  double pass = 1;    ///< time from end to end
  int passes = 5;
  double askew = 0;     ///< the middle of the swing, in halves of it: beyond 1 the gauge never reaches its turn
  double unsteady = 0;  ///< by what part ends and times vary
  Hand hand = Hand::pendulum;
  double hz = 20;
  double noise = 0.0015;
  double resolution = 0.001;
  double late = 0.0005;  ///< arrival after the value was true, as a normal distribution's positive half
};

/// Where the hand turns round.
struct End {
  double at, angle;
};

inline std::vector<End> ends_of(const Rocked& rocked, std::mt19937_64& chance) {
  std::normal_distribution<double> normal;
  const double swing = std::acos(rocked.size / (rocked.size + rocked.height));
  std::vector<End> ends;
  double at = 0;
  for (int i = 0; i <= rocked.passes; ++i) {
    const double reach = std::max(0.6, 1 + rocked.unsteady * normal(chance));
    ends.push_back({at, swing * (rocked.askew + (i % 2 == 0 ? reach : -reach))});
    at += rocked.pass * std::max(0.6, 1 + rocked.unsteady * normal(chance));
  }
  return ends;
}

inline std::vector<Sample> stream_of(const Rocked& rocked, std::mt19937_64& chance) {
  std::normal_distribution<double> normal;
  const std::vector<End> ends = ends_of(rocked, chance);
  std::vector<Sample> samples;
  std::size_t next = 1;
  for (double at = std::uniform_real_distribution<double>(0, 1 / rocked.hz)(chance);; at += 1 / rocked.hz) {
    while (next < ends.size() && ends[next].at < at) ++next;
    if (next == ends.size()) return samples;
    const End &from = ends[next - 1], &to = ends[next];
    const double part = (at - from.at) / (to.at - from.at);
    const double way = rocked.hand == Hand::even ? part : (1 - std::cos(part * std::numbers::pi)) / 2;
    const double shown =
        rocked.size / std::cos(from.angle + (to.angle - from.angle) * way) + rocked.noise * normal(chance);
    const double arrival = 7000 + at + rocked.late * std::abs(normal(chance));  // steady clocks do not begin at zero
    samples.push_back({std::llround(arrival * 1e9), Length::from_pm(std::llround(rocked.resolution * 1e9)) *
                                                        std::llround(shown / rocked.resolution)});
  }
}

inline std::vector<Sample> stream_of(const Rocked& rocked, std::uint64_t seed = 1) {
  std::mt19937_64 chance(seed);
  return stream_of(rocked, chance);
}

}  // namespace tenth::stream::testing
