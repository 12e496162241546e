#include "rules/statistics/one_way.hpp"

#include <algorithm>
#include <cmath>

#include "rules/statistics/distributions.hpp"

namespace tenth::statistics {
namespace {

/// The squared differences of the groups' means from the common one, each as often as the group has readings.
double squares_between(const std::vector<Summary>& groups) {
  const double first = groups.front().mean;
  Sum weighted, squares;
  double count = 0;
  for (const Summary& group : groups) {
    weighted.add(static_cast<double>(group.count) * (group.mean - first));
    count += static_cast<double>(group.count);
  }
  const double offset = weighted.value() / count;
  for (const Summary& group : groups) {
    const double difference = (group.mean - first) - offset;
    squares.add(static_cast<double>(group.count) * difference * difference);
  }
  return squares.value();
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
    const Summary& s = summaries.emplace_back(summarize(group));
    count += s.count;
    largest = std::max({largest, std::abs(s.least), std::abs(s.most)});
    within.add(s.squares);
  }
  if (count == groups.size())
    return refuse("too_few", "groups of one reading each show no scatter", "take at least 2 readings in a group");
  OneWay result;
  result.between = {
      static_cast<double>(groups.size() - 1), scatter(squares_between(summaries), count, largest), {}, {}};
  result.within = {static_cast<double>(count - groups.size()), scatter(within.value(), count, largest), {}, {}};
  test_against(result.between, result.within);
  result.r_squared = quotient(result.between.squares, result.between.squares + result.within.squares);
  result.residual_deviation = std::sqrt(result.within.mean_square());
  return result;
}

}  // namespace tenth::statistics
