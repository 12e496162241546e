#include "simulators/motion.hpp"

#include <cmath>
#include <numbers>

namespace tenth::simulators {

namespace {

double millionths(Amount amount) {
  return static_cast<double>(amount.millionths);
}

}  // namespace

Motion Motion::rocking(const Rock& rock, Amount amplitude, Amount before) {
  Motion motion;
  motion.kind_ = Kind::rocking;
  motion.size_ = rock.value;
  motion.after_ = before;
  motion.widest_ = std::acos(millionths(rock.value) / millionths(rock.value + amplitude));
  motion.noise_ = rock.noise;
  motion.period_ = rock.period;
  motion.lasts_ = rock.passes * rock.period;
  return motion;
}

Motion Motion::approaching(const Approach& approach, Amount before) {
  Motion motion;
  motion.size_ = motion.after_ = approach.value;
  motion.before_ = before;
  motion.period_ = motion.lasts_ = approach.over;
  return motion;
}

/// Rocked by the angle a in the plane of the bore's axis, a gauge that touches at two points spans d / cos a. The angle
/// swings as a cosine, one half period a pass: a = widest · cos(π t / period). An approach is half a cosine too.
Amount Motion::at(std::chrono::nanoseconds time, Random& random) const {
  const double turn = std::numbers::pi * (std::chrono::duration<double>(time) / period_);
  if (kind_ == Kind::approaching) {
    const double left = (1 + std::cos(turn)) / 2;
    return {std::llround(millionths(size_) + left * millionths(before_ - size_))};
  }
  const double span = millionths(size_) / std::cos(widest_ * std::cos(turn));
  if (noise_.millionths == 0) return {std::llround(span)};
  return {std::llround(std::normal_distribution<double>(span, millionths(noise_))(random))};
}

}  // namespace tenth::simulators
