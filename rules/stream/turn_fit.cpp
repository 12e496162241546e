#include "rules/stream/turn_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace tenth::stream {
namespace {

using Terms = std::array<double, kTerms>;

/// At this height a point weighs half, mm: some ten times the noise of gauges that read micrometres.
constexpr double kHalfWeight = 0.03;

/// Spans the same curves as a constant and the sines and cosines of x and 2x.
Terms terms_at(double x) {
  const double sine = std::sin(x), cosine = std::cos(x);
  return {1, sine, 1 - cosine, sine * cosine, sine * sine};
}

/// The normal equations of least squares: matrix × factors = right.
struct Equations {
  std::array<Terms, kTerms> matrix{};
  Terms right{};
};

Equations equations_of(std::span<const Point> points) {
  Equations e;
  for (const Point& point : points) {
    const double weight = 1 / (1 + point.height / kHalfWeight);
    const Terms terms = terms_at(point.x);
    for (std::size_t i = 0; i < kTerms; ++i) {
      for (std::size_t j = 0; j < kTerms; ++j) e.matrix[i][j] += weight * terms[i] * terms[j];
      e.right[i] += weight * terms[i] * point.height;
    }
  }
  return e;
}

/// Elimination without exchanges, as the matrix is symmetric and positive; none where what is left of a term beside
/// those before it is no more than rounding.
std::optional<Terms> solve(Equations e) {
  constexpr double kRounding = 1e-12;
  const Equations given = e;
  for (std::size_t k = 0; k < kTerms; ++k) {
    if (!(e.matrix[k][k] > kRounding * given.matrix[k][k])) return std::nullopt;
    for (std::size_t i = k + 1; i < kTerms; ++i) {
      const double factor = e.matrix[i][k] / e.matrix[k][k];
      for (std::size_t j = k; j < kTerms; ++j) e.matrix[i][j] -= factor * e.matrix[k][j];
      e.right[i] -= factor * e.right[k];
    }
  }
  Terms factors{};
  for (std::size_t k = kTerms; k-- > 0;) {
    double rest = e.right[k];
    for (std::size_t j = k + 1; j < kTerms; ++j) rest -= e.matrix[k][j] * factors[j];
    factors[k] = rest / e.matrix[k][k];
  }
  return factors;
}

/// Heights of the curve at even steps; the lowest is found between them as the vertex of a parabola through three.
constexpr std::size_t kSteps = 100;

std::array<double, kSteps + 1> heights_of(const Terms& factors, double from, double to) {
  std::array<double, kSteps + 1> heights{};
  for (std::size_t i = 0; i <= kSteps; ++i) {
    const Terms terms = terms_at(from + (to - from) * static_cast<double>(i) / kSteps);
    for (std::size_t k = 0; k < kTerms; ++k) heights[i] += factors[k] * terms[k];
  }
  return heights;
}

/// Of the parabola through three heights at even steps, the middle one the lowest.
double vertex(double before, double lowest, double after) {
  const double bend = before - 2 * lowest + after;
  return bend > 0 ? lowest - (after - before) * (after - before) / (8 * bend) : lowest;
}

}  // namespace

tl::expected<double, NoTurning> fit_turn(std::span<const Point> points) {
  const auto factors = solve(equations_of(points));
  if (!factors) return tl::unexpected(NoTurning::too_fast);
  const auto [first, last] = std::ranges::minmax(points, {}, &Point::x);
  const auto heights = heights_of(*factors, first.x, last.x);
  const auto at = static_cast<std::size_t>(std::ranges::min_element(heights) - heights.begin());
  if (at == 0 || at == kSteps) return tl::unexpected(NoTurning::one_sided);
  return vertex(heights[at - 1], heights[at], heights[at + 1]);
}

}  // namespace tenth::stream
