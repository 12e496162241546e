#pragma once

#include <span>

#include "rules/statistics/summary.hpp"

namespace tenth::statistics {

/// A mean square in a weighted sum that estimates a variance.
struct WeightedSquare {
  double weight = 0;  ///< may be negative
  double mean_square = 0, freedom = 0;
};

/// The 95 % interval, cut off below 0, of the variance that Σ weight × mean square estimates, the mean squares being
/// independent. One alone: exactly, by chi-squared. Several: the modified large-sample method (Graybill and Wang 1980
/// for sums; with the cross terms of Ting and others 1990 where differences occur), which keeps its level closely.
Interval variance_interval(std::span<const WeightedSquare> terms);

}  // namespace tenth::statistics
