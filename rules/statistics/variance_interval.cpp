#include "rules/statistics/variance_interval.hpp"

#include <algorithm>
#include <cmath>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

constexpr double kTail = (1 - kConfidence) / 2;

double part(const WeightedSquare& term) {
  return std::abs(term.weight) * term.mean_square;
}

/// How far the true part of a term may lie below, G, and above, H, what it is, as a share of it (exact for one term).
double down(const WeightedSquare& term) {
  return 1 - term.freedom / chi_squared_point(kTail, term.freedom);
}
double up(const WeightedSquare& term) {
  return term.freedom / chi_squared_point(1 - kTail, term.freedom) - 1;
}

/// The cross term of one added and one subtracted part, for the lower and for the upper end.
double cross_down(const WeightedSquare& added, const WeightedSquare& subtracted) {
  const double f = fisher_point(kTail, added.freedom, subtracted.freedom);
  const double g = down(added), h = up(subtracted);
  return ((f - 1) * (f - 1) - g * g * f * f - h * h) / f;
}
double cross_up(const WeightedSquare& added, const WeightedSquare& subtracted) {
  const double f = fisher_point(1 - kTail, added.freedom, subtracted.freedom);
  const double h = up(added), g = down(subtracted);
  return ((1 - f) * (1 - f) - h * h * f * f - g * g) / f;
}

double square(double x) {
  return x * x;
}

}  // namespace

Interval variance_interval(std::span<const WeightedSquare> terms) {
  double estimate = 0, below = 0, above = 0;  // the latter two are the squares of the distances to the ends
  for (const WeightedSquare& term : terms) {
    const bool added = term.weight > 0;
    estimate += term.weight * term.mean_square;
    below += square((added ? down(term) : up(term)) * part(term));
    above += square((added ? up(term) : down(term)) * part(term));
    if (!added) continue;
    for (const WeightedSquare& other : terms) {
      if (other.weight >= 0) continue;
      below += cross_down(term, other) * part(term) * part(other);
      above += cross_up(term, other) * part(term) * part(other);
    }
  }
  return {std::max(0.0, estimate - std::sqrt(std::max(0.0, below))),
          std::max(0.0, estimate + std::sqrt(std::max(0.0, above)))};
}

}  // namespace tenth::statistics
