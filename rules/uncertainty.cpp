#include "rules/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tenth {
namespace {

__extension__ using Wide = unsigned __int128;  // squares of lengths within 100 m need 94 bits

Wide square(std::int64_t pm) {
  return static_cast<Wide>(pm) * static_cast<Wide>(pm);
}

/// The share of the normal distribution below z.
double below(double z) {
  return std::erfc(-z / std::numbers::sqrt2) / 2;
}

}  // namespace

std::optional<Length> larger(std::optional<Length> a, std::optional<Length> b) {
  if (!a || !b) return std::nullopt;
  return std::max(*a, *b);
}

Length root_sum_of_squares(Length a, Length b) {
  const Wide sum = square(a.magnitude().pm()) + square(b.magnitude().pm());
  auto root = static_cast<std::int64_t>(std::sqrt(static_cast<double>(sum)));  // errs by less than 1, cut off below
  while (square(root) < sum) ++root;
  return Length::from_pm(root);
}

double conforming(Length figure, const Limits& limits, Length expanded) {
  if (expanded == Length())
    return (!limits.lower || figure >= *limits.lower) && (!limits.upper || figure <= *limits.upper) ? 1 : 0;
  const auto from_figure = [&](Length limit) {
    return 2 * static_cast<double>((limit - figure).pm()) / static_cast<double>(expanded.pm());
  };
  const double under_upper = limits.upper ? below(from_figure(*limits.upper)) : 1;
  const double under_lower = limits.lower ? below(from_figure(*limits.lower)) : 0;
  return under_upper - under_lower;
}

}  // namespace tenth
