#include "rules/statistics/charts.hpp"

#include <algorithm>
#include <cmath>

namespace tenth::statistics {
namespace {

constexpr double kMeanRangeOfTwo = 1.128;   // d2
constexpr double kRangeLimitOfTwo = 3.267;  // D4

}  // namespace

Result<Individuals> individuals(Values values) {
  if (auto fine = usable(values, 2, "a chart of moving ranges"); !fine) return tl::unexpected(fine.error());
  Individuals chart;
  for (std::size_t i = 1; i < values.size(); ++i) chart.ranges.push_back(std::abs(values[i] - values[i - 1]));
  chart.mean = summarize(values).mean;
  chart.mean_range = summarize(chart.ranges).mean;
  chart.sigma = chart.mean_range / kMeanRangeOfTwo;
  chart.limits = {chart.mean - 3 * chart.sigma, chart.mean + 3 * chart.sigma};
  chart.range_limit = kRangeLimitOfTwo * chart.mean_range;
  return chart;
}

Result<std::vector<EwmaPoint>> ewma(Values values, const EwmaSettings& settings) {
  if (auto fine = usable(values, 1, "a chart"); !fine) return tl::unexpected(fine.error());
  const double lambda = settings.lambda;
  std::vector<EwmaPoint> points;
  double average = settings.centre, forgotten = 1;  // forgotten: (1 - lambda)^(2 t)
  for (const double x : values) {
    average += lambda * (x - average);
    forgotten *= (1 - lambda) * (1 - lambda);
    const double margin = settings.width * settings.sigma * std::sqrt(lambda / (2 - lambda) * (1 - forgotten));
    const Interval limits{settings.centre - margin, settings.centre + margin};
    points.push_back({average, limits, !limits.holds(average)});
  }
  return points;
}

Result<std::vector<CusumPoint>> cusum(Values values, const CusumSettings& settings) {
  if (auto fine = usable(values, 1, "a chart"); !fine) return tl::unexpected(fine.error());
  std::vector<CusumPoint> points;
  CusumPoint sums;
  for (const double x : values) {
    const double off = x - settings.target;
    sums.high = std::max(0.0, sums.high + off - settings.slack);
    sums.low = std::max(0.0, sums.low - off - settings.slack);
    sums.signals = sums.high > settings.decision || sums.low > settings.decision;
    points.push_back(sums);
  }
  return points;
}

}  // namespace tenth::statistics
