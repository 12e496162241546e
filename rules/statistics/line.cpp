#include "rules/statistics/line.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

double largest(const Summary& s) {
  return std::max(std::abs(s.least), std::abs(s.most));
}

/// How far x lies from the middle of the points, in units that make its variance: 1/n + (x - mean)²/Σ(x - mean)².
double leverage(const Line& line, double x) {
  const double away = x - line.x_mean;
  return 1 / static_cast<double>(line.count) + away * away / line.x_squares;
}

double slope_of(Values xs, Values ys, const Line& line) {
  Sum products;
  for (std::size_t i = 0; i < xs.size(); ++i) products.add((xs[i] - line.x_mean) * (ys[i] - line.y_mean));
  return products.value() / line.x_squares;
}

double squares_off(Values xs, Values ys, const Line& line, double slope) {
  Sum squares;
  for (std::size_t i = 0; i < xs.size(); ++i) {
    const double residue = (ys[i] - line.y_mean) - slope * (xs[i] - line.x_mean);
    squares.add(residue * residue);
  }
  return squares.value();
}

}  // namespace

double Line::at(double x) const {
  return y_mean + slope.value * (x - x_mean);
}

Interval Line::band(double x) const {
  const Estimate e = estimate(at(x), residual_deviation * std::sqrt(leverage(*this, x)), slope.freedom);
  return e.interval;
}

Result<Line> fit_line(Values xs, Values ys, double rounded_from) {
  assert(xs.size() == ys.size());
  for (const Values values : {xs, ys})
    if (auto fine = usable(values, 3, "a straight line"); !fine) return tl::unexpected(fine.error());
  const Summary x = summarize(xs), y = summarize(ys);
  Line line{x.count, x.mean, y.mean, scatter(x.squares, x.count, largest(x)), 0, 0, {}, {}, {}};
  if (line.x_squares == 0)
    return refuse("no_span", "a straight line through points that all lie at one place", "spread them out");
  const double size = std::max(largest(y), rounded_from);
  const double y_squares = scatter(y.squares, y.count, size);
  const double slope = y_squares > 0 ? slope_of(xs, ys, line) : 0;
  const double freedom = static_cast<double>(line.count) - 2;
  line.residual_squares = scatter(squares_off(xs, ys, line, slope), y.count, size);
  line.residual_deviation = std::sqrt(line.residual_squares / freedom);
  line.slope = estimate(slope, line.residual_deviation / std::sqrt(line.x_squares), freedom);
  line.intercept = estimate(line.at(0), line.residual_deviation * std::sqrt(leverage(line, 0)), freedom);
  if (y_squares > 0) line.r_squared = std::clamp(1 - line.residual_squares / y_squares, 0.0, 1.0);
  return line;
}

}  // namespace tenth::statistics
