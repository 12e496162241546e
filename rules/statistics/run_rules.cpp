#include "rules/statistics/run_rules.hpp"

#include <algorithm>

namespace tenth::statistics {
namespace {

/// The values up to one of them, in sigmas from the centre, and the steps between them as signs.
struct History {
  std::span<const double> places;
  std::span<const int> steps;
};

constexpr double kFar = 1e9;  // sigmas; as good as any farther
// Rounding must not decide on which side of a line a value lies that was typed on it.
constexpr double kOnLine = 1e-9;
bool above(double place, double line) {
  return place > line + kOnLine;
}
bool below(double place, double line) {
  return place < line - kOnLine;
}

/// Whether at least `wanted` of the last `count`, the last among them, lie beyond `line` sigmas on one and the same
/// side.
bool on_one_side(const History& history, std::size_t wanted, std::size_t count, double line) {
  if (history.places.empty()) return false;
  const auto recent = history.places.last(std::min(count, history.places.size()));
  const auto high = [&](double place) { return above(place, line); };
  const auto low = [&](double place) { return below(place, -line); };
  const auto found = [&](const auto& beyond) {
    return beyond(recent.back()) && static_cast<std::size_t>(std::ranges::count_if(recent, beyond)) >= wanted;
  };
  return found(high) || found(low);
}

bool six_rising_or_falling(const History& history) {
  if (history.steps.size() < 5) return false;
  const auto recent = history.steps.last(5);
  return recent.back() != 0 && std::ranges::all_of(recent, [&](int step) { return step == recent.back(); });
}

bool fourteen_alternating(const History& history) {
  if (history.steps.size() < 13) return false;
  const auto recent = history.steps.last(13);
  return std::ranges::adjacent_find(recent, [](int a, int b) { return a * b >= 0; }) == recent.end();
}

bool fifteen_within_one_sigma(const History& history) {
  if (history.places.size() < 15) return false;
  return std::ranges::all_of(history.places.last(15), [](double z) { return below(z, 1) && above(z, -1); });
}

bool eight_beyond_one_sigma(const History& history) {
  if (history.places.size() < 8) return false;
  return std::ranges::all_of(history.places.last(8), [](double z) { return above(z, 1) || below(z, -1); });
}

bool fires(RunRule rule, const History& history) {
  switch (rule) {
    case RunRule::one_beyond_three_sigma:
      return on_one_side(history, 1, 1, 3);
    case RunRule::nine_on_one_side:
      return on_one_side(history, 9, 9, 0);
    case RunRule::six_rising_or_falling:
      return six_rising_or_falling(history);
    case RunRule::fourteen_alternating:
      return fourteen_alternating(history);
    case RunRule::two_of_three_beyond_two_sigma:
      return on_one_side(history, 2, 3, 2);
    case RunRule::four_of_five_beyond_one_sigma:
      return on_one_side(history, 4, 5, 1);
    case RunRule::fifteen_within_one_sigma:
      return fifteen_within_one_sigma(history);
    case RunRule::eight_beyond_one_sigma:
      return eight_beyond_one_sigma(history);
  }
  return false;
}

}  // namespace

Result<std::vector<RuleFired>> run_rules(Values values, double centre, double sigma) {
  if (auto fine = usable(values, 1, "a chart"); !fine) return tl::unexpected(fine.error());
  std::vector<double> places;
  std::vector<int> steps;
  std::vector<RuleFired> fired;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (sigma > 0) places.push_back(std::clamp((values[i] - centre) / sigma, -kFar, kFar));
    if (i > 0) steps.push_back((values[i] > values[i - 1]) - (values[i] < values[i - 1]));
    for (std::size_t rule = 0; rule < kRunRules.words.size(); ++rule)
      if (fires(static_cast<RunRule>(rule), {places, steps})) fired.push_back({static_cast<RunRule>(rule), i});
  }
  return fired;
}

}  // namespace tenth::statistics
