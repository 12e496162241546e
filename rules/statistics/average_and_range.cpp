#include <algorithm>
#include <cmath>

#include "rules/statistics/range_factors.hpp"
#include "rules/statistics/study.hpp"
#include "rules/statistics/study_shares.hpp"

namespace tenth::statistics {
namespace {

double range(Values values) {
  const auto [least, most] = std::ranges::minmax(values);
  return most - least;
}

double as_printed(double factor) {
  return std::round(factor * 1e4) / 1e4;
}

double range_of_operator_means(const Crossed& study) {
  std::vector<double> means;
  for (std::size_t by = 0; by < study.operators(); ++by) means.push_back(summarize(study.of_operator(by)).mean);
  return range(means);
}

double range_of_part_means(const Crossed& study) {
  std::vector<double> means;
  for (std::size_t part = 0; part < study.parts(); ++part) means.push_back(summarize(study.of_part(part)).mean);
  return range(means);
}

void look_at_ranges(AverageAndRange& result, const Crossed& study) {
  std::vector<WideCell> cells;
  Sum ranges;
  for (std::size_t part = 0; part < study.parts(); ++part)
    for (std::size_t by = 0; by < study.operators(); ++by) {
      cells.push_back({study.part_number(part), study.operator_name(by), range(study.cell(part, by))});
      ranges.add(cells.back().range);
    }
  result.mean_range = ranges.value() / static_cast<double>(cells.size());
  result.range_limit = range_limit_factor(static_cast<int>(study.trials())) * result.mean_range;
  std::ranges::copy_if(cells, std::back_inserter(result.wide),
                       [&](const WideCell& cell) { return cell.range > result.range_limit; });
}

}  // namespace

AverageAndRange average_and_range(const Crossed& study, std::optional<double> tolerance) {
  AverageAndRange result;
  look_at_ranges(result, study);
  result.k1 = as_printed(1 / d2(static_cast<int>(study.trials())));
  result.k2 = as_printed(1 / d2_star(static_cast<int>(study.operators()), 1));
  result.k3 = as_printed(1 / d2_star(static_cast<int>(study.parts()), 1));
  const double ev = result.k1 * result.mean_range;
  const double operators = result.k2 * range_of_operator_means(study);
  const double repeats_in_it = ev * ev / static_cast<double>(study.parts() * study.trials());
  const double av = std::sqrt(std::max(0.0, operators * operators - repeats_in_it));
  const double grr = std::hypot(ev, av);
  const double pv = result.k3 * range_of_part_means(study);
  const double tv = std::hypot(grr, pv);
  result.ev = share(ev, tv, tolerance);
  result.av = share(av, tv, tolerance);
  result.grr = share(grr, tv, tolerance);
  result.pv = share(pv, tv, tolerance);
  result.tv = share(tv, tv, tolerance);
  result.categories = distinct_categories(pv, grr);
  return result;
}

}  // namespace tenth::statistics
