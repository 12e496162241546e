#pragma once

#include <chrono>
#include <random>

#include "simulators/act.hpp"

namespace tenth::simulators {

using Random = std::mt19937_64;

/// The size that a gauge measures while it is moved, as a function of the time since it began.
class Motion {
 public:
  /// `amplitude` is more than 0, like the diameter.
  static Motion rocking(const Rock& rock, Amount amplitude, Amount before);
  static Motion approaching(const Approach& approach, Amount before);

  std::chrono::milliseconds lasts() const { return lasts_; }
  Amount at(std::chrono::nanoseconds time, Random& random) const;

  /// Where it stands afterwards: an approach at its end, a rocked gauge where it was before.
  Amount after() const { return after_; }

 private:
  enum class Kind { rocking, approaching };

  Kind kind_ = Kind::approaching;
  Amount size_;    ///< the diameter, or where the approach ends
  Amount before_;  ///< where it began
  Amount after_;
  double widest_ = 0;  ///< angle at which a swing turns, in radians
  Amount noise_;
  std::chrono::milliseconds period_{0}, lasts_{0};
};

}  // namespace tenth::simulators
