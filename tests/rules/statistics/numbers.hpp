#pragma once

#include <optional>
#include <vector>

#include "rules/statistics/charts.hpp"
#include "rules/statistics/master_checks.hpp"
#include "rules/statistics/outliers.hpp"
#include "rules/statistics/study.hpp"

namespace tenth::statistics::testing {

using Numbers = std::vector<double>;

/// Every number of a result, in a fixed order, so that results can be compared and looked through as a whole. A number
/// that is not there is left out.
struct Gathered {
  Numbers all;

  void add(double x) { all.push_back(x); }
  void add(std::optional<double> x) {
    if (x) all.push_back(*x);
  }
  void add(const Interval& x) { all.insert(all.end(), {x.lower, x.upper}); }
  void add(const Summary& x) { all.insert(all.end(), {x.mean, x.squares, x.deviation, x.least, x.most}); }
  template <class... Parts>
  void add_all(const Parts&... parts) {
    (add(parts), ...);
  }
  void add(const Estimate& x) { add_all(x.value, x.error, x.t, x.p, x.interval); }
  void add(const Source& x) { add_all(x.freedom, x.squares, x.f, x.p); }
  void add(const OneWay& x) { add_all(x.between, x.within, x.r_squared, x.residual_deviation); }
  void add(const Farthest& x) { add_all(x.distance, x.critical); }
  void add(const Outliers& x) {
    for (const Farthest& step : x.steps) add(step);
  }
  void add(const Line& x) {
    add_all(x.x_mean, x.y_mean, x.x_squares, x.residual_squares, x.residual_deviation, x.slope, x.intercept,
            x.r_squared, x.band(1));
  }
  void add(const Bias& x) { add_all(x.readings, x.bias); }
  void add(const Linearity& x) {
    for (const MasterBias& master : x.masters) add_all(master.reference, master.biases, master.band);
    add_all(x.line, x.lack_f, x.lack_p);
  }
  void add(const Drift& x) {
    const SetAgain when = set_again(x, 0.005);
    add_all(x.line, x.per_month, when.likely_days, when.earliest_days);
  }
  void add(const Individuals& x) {
    add_all(x.mean, x.sigma, x.limits, x.mean_range, x.range_limit);
    for (const double range : x.ranges) add(range);
  }
  void add(const std::vector<EwmaPoint>& x) {
    for (const EwmaPoint& point : x) add_all(point.value, point.limits);
  }
  void add(const std::vector<CusumPoint>& x) {
    for (const CusumPoint& point : x) add_all(point.high, point.low);
  }
  void add(const Share& x) { add_all(x.sigma, x.of_total, x.of_tolerance); }
  void add(const AverageAndRange& x) {
    add_all(x.k1, x.k2, x.k3, x.mean_range, x.range_limit, x.ev, x.av, x.grr, x.pv, x.tv);
  }
  void add(const Component& x) { add_all(x.computed, x.variance, x.interval, x.share); }
  void add(const Components& x) { add_all(x.parts_test, x.operators_test, x.ev, x.av, x.iv, x.grr, x.pv, x.tv); }
  void add(const StudyAnova& x) {
    add_all(x.parts, x.operators, x.interaction, x.repeatability, x.pooled, x.total, x.with_interaction, x.without);
  }
};

template <class... Answers>
Numbers numbers(const Answers&... answers) {
  Gathered gathered;
  gathered.add_all(answers...);
  return gathered.all;
}

}  // namespace tenth::statistics::testing
