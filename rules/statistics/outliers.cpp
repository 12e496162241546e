#include "rules/statistics/outliers.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

Farthest farthest(Values values, double level) {
  const Summary s = summarize(values);
  const auto distance = [&](double x) { return std::abs(x - s.mean); };
  const auto found = std::ranges::max_element(values, {}, distance);
  Farthest f{static_cast<std::size_t>(found - values.begin()), 0, grubbs_critical(values.size(), level), false};
  f.distance = quotient(distance(*found), s.deviation).value_or(0);
  f.outlier = f.distance > f.critical;
  return f;
}

}  // namespace

double grubbs_critical(std::size_t count, double level) {
  const auto n = static_cast<double>(count);
  const double t = student_point(level / (2 * n), n - 2);
  return (n - 1) / std::sqrt(n) * std::sqrt(t * t / (n - 2 + t * t));
}

double grubbs_beyond(double distance, std::size_t count) {
  const auto n = static_cast<double>(count);
  const double left = (n - 1) * (n - 1) - n * distance * distance;
  if (left <= 0) return 0;  // the others all alike
  const double t = distance * std::sqrt(n * (n - 2) / left);
  return std::min(1.0, n * student_beyond(t, n - 2));
}

Result<Farthest> grubbs(Values values, double level) {
  if (auto fine = usable(values, 3, "a test for an outlier"); !fine) return tl::unexpected(fine.error());
  return farthest(values, level);
}

Result<Outliers> generalized_esd(Values values, std::size_t most, double level) {
  if (auto fine = usable(values, std::max<std::size_t>(most, 1) + 2, "a test for outliers"); !fine)
    return tl::unexpected(fine.error());
  std::vector<double> left(values.begin(), values.end());
  std::vector<std::size_t> indices(values.size());
  std::iota(indices.begin(), indices.end(), std::size_t{0});
  Outliers result;
  for (std::size_t step = 1; step <= most; ++step) {
    const Farthest f = farthest(left, level);
    const auto at = static_cast<std::ptrdiff_t>(f.index);
    result.steps.push_back(f);
    result.steps.back().index = indices[f.index];
    if (f.outlier) result.count = step;
    left.erase(left.begin() + at);
    indices.erase(indices.begin() + at);
  }
  return result;
}

}  // namespace tenth::statistics
