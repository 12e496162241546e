#include "rules/statistics/estimate.hpp"

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {

Estimate estimate(double value, double error, double freedom) {
  const double margin = error * student_point((1 - kConfidence) / 2, freedom);
  Estimate e{value, error, freedom, quotient(value, error), {}, {value - margin, value + margin}};
  if (e.t) e.p = student_beyond(*e.t, freedom);
  return e;
}

Estimate scaled(const Estimate& estimate, double times) {
  Estimate e = estimate;
  e.value *= times;
  e.error *= times;
  e.interval = {e.interval.lower * times, e.interval.upper * times};
  return e;
}

}  // namespace tenth::statistics
