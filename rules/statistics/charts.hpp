#pragma once

#include <vector>

#include "rules/statistics/summary.hpp"

/// Control charts of single values in the order of time, such as the drifts of a gauge's master checks.
namespace tenth::statistics {

/// Individuals and moving ranges. sigma = mean moving range / 1.128, limits ± 3 sigma; the range's limit is 3.267 times
/// its mean: d2 and D4 of two readings, as chart tables print them.
struct Individuals {
  double mean = 0, sigma = 0;
  Interval limits;
  std::vector<double> ranges;  ///< of each value and the one before it
  double mean_range = 0, range_limit = 0;
};
/// Refused: fewer than two values (`too_few`).
Result<Individuals> individuals(Values values);

/// An exponentially weighted moving average sees a small lasting shift sooner. Of each value it takes the share
/// `lambda`, 0 < lambda ≤ 1; the limits are those at its point, `width` of its own standard deviations from the centre.
struct EwmaSettings {
  double centre = 0, sigma = 0;
  double lambda = 0.2, width = 3;
};
struct EwmaPoint {
  double value = 0;
  Interval limits;
  bool beyond = false;
};
/// Refused: no value (`too_few`).
Result<std::vector<EwmaPoint>> ewma(Values values, const EwmaSettings& settings);

/// Tabular cumulative sums: what the values go beyond `target` ± `slack`, summed up on either side and never below 0.
/// A shift is signalled where a sum exceeds `decision`. Common practice: slack 0.5 sigma, decision 4 to 5 sigma.
struct CusumSettings {
  double target = 0, slack = 0, decision = 0;
};
struct CusumPoint {
  double high = 0, low = 0;
  bool signals = false;
};
/// Refused: no value (`too_few`).
Result<std::vector<CusumPoint>> cusum(Values values, const CusumSettings& settings);

}  // namespace tenth::statistics
