#include "rules/statistics/study_shares.hpp"

#include <cmath>

namespace tenth::statistics {

Share share(double sigma, double total, std::optional<double> tolerance) {
  Share s{sigma, quotient(100 * sigma, total), {}};
  if (tolerance) s.of_tolerance = quotient(100 * 6 * sigma, *tolerance);
  return s;
}

std::optional<double> distinct_categories(double parts_sigma, double gauge_sigma) {
  const auto categories = quotient(1.41 * parts_sigma, gauge_sigma);
  if (!categories) return std::nullopt;
  return std::floor(*categories);
}

std::optional<LimitRatio> limit_ratio(double width, double expanded) {
  const auto ratio = quotient(width, expanded);
  if (!ratio || *ratio <= 0) return std::nullopt;
  return LimitRatio{*ratio, *ratio >= 10 ? Adequacy::good : *ratio >= 5 ? Adequacy::usable : Adequacy::too_coarse};
}

}  // namespace tenth::statistics
