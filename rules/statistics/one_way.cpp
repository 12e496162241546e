#include "rules/statistics/one_way.hpp"

#include <algorithm>
#include <cmath>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

/// The squared differences of the groups' means from the common one, each as often as the group has readings.
double squares_between(const std::vector<Summary>& groups, std::size_t count) {
  Sum weighted, squares;
  for (const Summary& group : groups) weighted.add(static_cast<double>(group.count) * group.mean);
  const double middle = weighted.value() / static_cast<double>(count);
  for (const Summary& group : groups) {
    const double difference = group.mean - middle;
    squares.add(static_cast<double>(group.count) * difference * difference);
  }
  return squares.value();
}

/// Differences from a reading of the same kind, so that the means keep all digits that a large common offset would
/// take.
std::vector<double> from(double first, Values values) {
  std::vector<double> differences(values.begin(), values.end());
  for (double& x : differences) x -= first;
  return differences;
}

}  // namespace

void test_against(Source& source, const Source& error) {
  source.f = quotient(source.mean_square(), error.mean_square());
  source.p = source.f ? std::optional(fisher_beyond(*source.f, source.freedom, error.freedom)) : std::nullopt;
}

Result<OneWay> one_way(std::span<const std::vector<double>> groups) {
  if (groups.size() < 2)
    return refuse("too_few", "a comparison of " + std::to_string(groups.size()) + " groups is too little data",
                  "take readings of at least 2 groups");
  std::vector<Summary> summaries;
  std::size_t count = 0;
  double largest = 0;
  Sum within;
  for (const auto& group : groups) {
    if (auto fine = usable(group, 1, "a group"); !fine) return tl::unexpected(fine.error());
    summaries.push_back(summarize(from(groups.front().front(), group)));
    count += group.size();
    for (const double x : group) largest = std::max(largest, std::abs(x));
    within.add(summaries.back().squares);
  }
  if (count == groups.size())
    return refuse("too_few", "groups of one reading each show no scatter", "take at least 2 readings in a group");
  OneWay result;
  result.between = {
      static_cast<double>(groups.size() - 1), scatter(squares_between(summaries, count), count, largest), {}, {}};
  result.within = {static_cast<double>(count - groups.size()), scatter(within.value(), count, largest), {}, {}};
  test_against(result.between, result.within);
  result.r_squared = quotient(result.between.squares, result.between.squares + result.within.squares);
  result.residual_deviation = std::sqrt(result.within.mean_square());
  return result;
}

}  // namespace tenth::statistics
