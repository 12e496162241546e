#include "rules/statistics/range_factors.hpp"

#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <numbers>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

/// The integral of a smooth function that vanishes beyond ±10. Equal steps are exact to rounding for such functions.
template <class Function>
double integral(Function f) {
  constexpr double kStep = 0.125;
  constexpr int kSteps = 80;
  double sum = 0;
  for (int i = -kSteps; i <= kSteps; ++i) sum += f(i * kStep);
  return sum * kStep;
}

double normal_density(double x) {
  return std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
}

/// The share of ranges of `size` standard normal readings below r: the least of them at x, the others within r above.
double ranges_below(double r, int size) {
  return size * integral([&](double x) {
           return normal_density(x) * std::pow(normal_below(x + r) - normal_below(x), size - 1);
         });
}

/// The mean of the squared range: the integral of 2 r P(range > r).
double mean_squared_range(int size) {
  const auto f = [&](double r) { return 2 * r * (1 - ranges_below(r, size)); };
  using Gauss = boost::math::quadrature::gauss<double, 30>;
  return Gauss::integrate(f, 0, 5) + Gauss::integrate(f, 5, 10) + Gauss::integrate(f, 10, 20);
}

}  // namespace

double d2(int size) {
  return integral([&](double x) { return 1 - std::pow(normal_below(x), size) - std::pow(normal_below(-x), size); });
}

double d3(int size) {
  const double mean = d2(size);
  return std::sqrt(mean_squared_range(size) - mean * mean);
}

double d2_star(int size, int groups) {
  return std::hypot(d2(size), d3(size) / std::sqrt(groups));
}

double range_limit_factor(int size) {
  return 1 + 3 * d3(size) / d2(size);
}

}  // namespace tenth::statistics
