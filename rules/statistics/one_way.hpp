#pragma once

#include <vector>

#include "rules/statistics/summary.hpp"

namespace tenth::statistics {

/// Where scatter comes from: one line of an analysis of variance.
struct Source {
  double freedom = 0;          ///< degrees of freedom
  double squares = 0;          ///< sum of squares
  std::optional<double> f, p;  ///< Fisher's test against the line that it is held against; none where that has none
  double mean_square() const { return freedom > 0 ? squares / freedom : 0; }
};

/// Tests a source against another one.
void test_against(Source& source, const Source& error);

/// Readings in groups: does the mean differ from group to group by more than within them?
struct OneWay {
  Source between, within;
  std::optional<double> r_squared;  ///< share of the groups in all squares; none where all readings are alike
  double residual_deviation = 0;    ///< √ mean square within
};

/// One-way analysis of variance of at least two groups, none empty, one with more than one reading (`too_few`).
Result<OneWay> one_way(std::span<const std::vector<double>> groups);

}  // namespace tenth::statistics
