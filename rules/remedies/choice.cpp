#include "rules/remedies/choice.hpp"

#include <algorithm>
#include <functional>
#include <map>

#include "rules/remedies/branching.hpp"

namespace tenth {

Cost operator+(const Cost& a, const Cost& b) {
  return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}

namespace choice {
namespace {

/// Of the ways of a row that take the same only the cheapest.
void keep_cheapest(std::vector<Candidate>& row) {
  std::map<std::pair<int, int>, Candidate> cheapest;
  for (const Candidate& each : row) {
    const auto [found, fresh] = cheapest.try_emplace(std::minmax(each.way.takes[0], each.way.takes[1]), each);
    if (!fresh && each.way.cost < found->second.way.cost) found->second = each;
  }
  row.clear();
  for (const auto& [takes, each] : cheapest) row.push_back(each);
}

/// Without the ways that ask for more than there is from the start.
Rows candidates(const std::vector<std::vector<Way>>& rows, const std::vector<int>& supply) {
  Rows result(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row)
    for (std::size_t i = 0; i < rows[row].size(); ++i)
      if (to_be_had(rows[row][i], supply)) result[row].push_back({rows[row][i], row, i});
  return result;
}

/// Only supplies that can run out matter: numbers those anew and forgets the others.
void keep_scarce(Rows& rows, std::vector<int>& supply) {
  std::vector<int> wanted(supply.size());
  for (const auto& row : rows) {
    std::vector<int> most(supply.size());
    for (const Candidate& each : row)
      for (const int take : each.way.takes)
        if (take >= 0) {
          int& here = most[static_cast<std::size_t>(take)];
          here = std::max(here, each.way.takes[0] == each.way.takes[1] ? 2 : 1);
        }
    std::ranges::transform(wanted, most, wanted.begin(), std::plus());
  }
  std::vector<int> scarce, number(supply.size(), -1);
  for (std::size_t i = 0; i < supply.size(); ++i) {
    if (wanted[i] <= supply[i]) continue;
    number[i] = static_cast<int>(scarce.size());
    scarce.push_back(supply[i]);
  }
  for (auto& row : rows)
    for (Candidate& each : row)
      for (int& take : each.way.takes)
        if (take >= 0) take = number[static_cast<std::size_t>(take)];
  supply = std::move(scarce);
  for (auto& row : rows) keep_cheapest(row);
}

/// The first way of every row, where the supplies allow it: what is there already is worth starting from.
Best first_of_each(const std::vector<std::vector<Way>>& rows, std::vector<int> left) {
  Best best{Cost{}, std::vector<std::size_t>(rows.size(), 0)};
  for (const auto& row : rows) {
    const Way& first = row.front();
    if (!to_be_had(first, left)) return {};
    take(first, left);
    best.cost = *best.cost + first.cost;
  }
  return best;
}

}  // namespace
}  // namespace choice

std::optional<Choice> best_choice(const std::vector<std::vector<Way>>& ways, std::vector<int> supply) {
  using namespace choice;
  Rows rows = candidates(ways, supply);
  if (std::ranges::any_of(rows, [](const auto& row) { return row.empty(); })) return std::nullopt;
  Best best = first_of_each(ways, supply);
  keep_scarce(rows, supply);
  bool proven = true;
  for (std::size_t aim = 0; aim < std::tuple_size_v<Cost>; ++aim) {
    proven = improve(rows, supply, aim, best) && proven;
    if (!best.cost) return std::nullopt;
  }
  return Choice{std::move(best.positions), proven};
}

}  // namespace tenth
