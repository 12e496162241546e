#pragma once

#include "rules/statistics/estimate.hpp"

namespace tenth::statistics {

/// The straight line through points by least squares.
struct Line {
  std::size_t count = 0;
  double x_mean = 0, y_mean = 0;
  double x_squares = 0;           ///< sum of squared differences of the x from their mean
  double residual_squares = 0;    ///< of the points from the line
  double residual_deviation = 0;  ///< √(residual_squares / (count - 2))
  Estimate slope, intercept;
  std::optional<double> r_squared;  ///< share of the y's squares that the line explains; none where all y are alike

  double at(double x) const;
  /// The 95 % band of the line itself, not of single readings, at x.
  Interval band(double x) const;
};

/// Refused: fewer than three points (`too_few`), all x alike (`no_span`), no numbers. `xs` and `ys` are equally many.
/// Where the ys are differences of larger numbers, up to `rounded_from`, the rounding of those counts as no scatter.
Result<Line> fit_line(Values xs, Values ys, double rounded_from = 0);

}  // namespace tenth::statistics
