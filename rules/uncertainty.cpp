#include "rules/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tenth {
namespace {

__extension__ using Square = unsigned __int128;  // two squares of 64-bit lengths

Square square(std::uint64_t pm) {
  return Square{pm} * pm;
}

Square square(Length length) {
  return square(static_cast<std::uint64_t>(length.magnitude().pm()));
}

/// The root, rounded up.
std::uint64_t root_of(Square sum) {
  auto root = static_cast<std::uint64_t>(std::sqrt(static_cast<double>(sum)));  // near it, however large
  while (root > 0 && square(root - 1) >= sum) --root;
  while (square(root) < sum) ++root;
  return root;
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

std::optional<Length> joined(std::optional<Length> a, std::optional<Length> b) {
  if (!a || !b) return std::nullopt;
  return root_sum_of_squares(*a, *b);
}

Length root_sum_of_squares(Length a, Length b) {
  return Length::from_pm(narrowed(Wide{root_of(square(a) + square(b))}));
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
