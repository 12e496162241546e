#include "rules/statistics/master_checks.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

constexpr double kDaysAMonth = 30.4375;

using BiasesByReference = std::map<double, std::vector<double>>;

/// Splits the squares off the line into those of the repeats and those of the masters' means off it.
void test_fit(Linearity& result, double largest) {
  const auto masters = static_cast<double>(result.masters.size());
  Sum repeats;
  for (const MasterBias& master : result.masters) repeats.add(master.biases.squares);
  const double freedom = static_cast<double>(result.line.count) - masters;
  if (masters <= 2 || freedom == 0) return;
  const double within = scatter(repeats.value(), result.line.count, largest);
  const double off = std::max(0.0, result.line.residual_squares - within);
  result.lack_f = quotient(off / (masters - 2), within / freedom);
  if (result.lack_f) result.lack_p = fisher_beyond(*result.lack_f, masters - 2, freedom);
}

}  // namespace

Result<Bias> bias(Values readings, double reference) {
  if (auto fine = usable(readings, 2, "a bias"); !fine) return tl::unexpected(fine.error());
  if (auto fine = usable({&reference, 1}, 1, "a master"); !fine) return tl::unexpected(fine.error());
  const Summary s = summarize(readings);
  const auto n = static_cast<double>(s.count);
  return Bias{s, estimate(s.mean - reference, s.deviation / std::sqrt(n), n - 1)};
}

Result<Linearity> linearity(std::span<const MasterReading> readings) {
  std::vector<double> references, biases;
  BiasesByReference by_reference;
  double largest = 0;
  for (const auto& [reference, value] : readings) {
    references.push_back(reference);
    biases.push_back(value - reference);
    largest = std::max({largest, std::abs(reference), std::abs(value)});
  }
  TENTH_TRY(Line line, fit_line(references, biases, largest));
  for (std::size_t i = 0; i < biases.size(); ++i) by_reference[references[i]].push_back(biases[i]);
  Linearity result{std::move(line), {}, true, {}, {}};
  for (const auto& [reference, values] : by_reference) {
    const Interval band = result.line.band(reference);
    result.masters.push_back({reference, summarize(values), band});
    result.acceptable = result.acceptable && band.holds(0);
  }
  test_fit(result, largest);
  return result;
}

Result<Drift> drift(std::span<const MasterCheck> checks) {
  std::vector<double> days, values;
  for (const MasterCheck& check : checks) {
    days.push_back(check.days);
    values.push_back(check.value);
  }
  TENTH_TRY(Line line, fit_line(days, values));
  const Estimate per_month = scaled(line.slope, kDaysAMonth);
  return Drift{std::move(line), per_month};
}

SetAgain set_again(const Drift& drift, double allowed) {
  const Estimate& a_day = drift.line.slope;
  const double fastest = std::max(std::abs(a_day.interval.lower), std::abs(a_day.interval.upper));
  return {quotient(std::abs(allowed), std::abs(a_day.value)), quotient(std::abs(allowed), fastest)};
}

}  // namespace tenth::statistics
