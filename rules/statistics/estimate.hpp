#pragma once

#include "rules/statistics/summary.hpp"

namespace tenth::statistics {

/// A figure that may be nothing but scatter, and Student's test of that.
struct Estimate {
  double value = 0;
  double error = 0;            ///< its standard error
  double freedom = 0;          ///< degrees of freedom of the error
  std::optional<double> t, p;  ///< value / error, and how often chance alone goes so far; none without any scatter
  Interval interval;           ///< value ± t(95 %) × error

  /// The interval does not hold 0: there is something beyond the scatter.
  bool real() const { return !interval.holds(0); }
};

Estimate estimate(double value, double error, double freedom);

/// The same figure in a unit of which `times` make one of the old ones.
Estimate scaled(const Estimate& estimate, double times);

}  // namespace tenth::statistics
