#include "rules/remedies/branching.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "rules/remedies/bound.hpp"

namespace tenth::choice {
namespace {

/// What all costs of an aim are whole multiples of: a better choice is better by at least that.
std::int64_t grid_of(const Rows& rows, std::size_t aim) {
  std::int64_t grid = 0;
  for (const auto& row : rows)
    for (const Candidate& each : row) grid = std::gcd(grid, each.way.cost[aim]);
  return std::max<std::int64_t>(grid, 1);
}

/// Two parts of all choices: those in which a row takes from a supply, and the others; without a supply those in which
/// it is filled in a certain way, and the others.
struct Split {
  std::size_t row = 0;
  int supply = -1;
  std::size_t position = 0;

  bool has(const Candidate& each) const {
    return supply < 0 ? each.position == position : std::ranges::count(each.way.takes, supply) > 0;
  }
};

class Branching {
 public:
  Branching(const Rows& rows, std::span<const int> supply, std::size_t aim, Best& best)
      : supply_(supply), aim_(aim), grid_(grid_of(rows, aim)), best_(best) {}

  /// Looks for something better among these. Fills the excesses and returns the bound.
  std::int64_t search(Rows& rows) {
    const Relaxed relaxed = choice::relaxed(rows, supply_, aim_, best_.cost.value_or(Cost{}));
    work_ += relaxed.work;
    const std::int64_t bound = choice::bound(rows, supply_, aim_, best_.cost.value_or(Cost{}), relaxed);
    if (bound == INT64_MAX) return bound;
    round_off(rows, relaxed.share);
    const std::int64_t slack = most(rows) * kFine - bound;
    const auto split = split_of(rows, relaxed.share);
    if (slack < 0 || !split) return bound;
    for (const bool with : {true, false}) {
      if (!within_reason()) return bound;
      Rows part = part_of(rows, slack, *split, with);
      if (std::ranges::none_of(part, [](const auto& row) { return row.empty(); })) search(part);
    }
    return bound;
  }

  bool within_reason() const { return work_ < kMostWork; }

 private:
  static constexpr std::size_t kMostWork = 1'500'000'000;  // a second at most

  /// Only what costs less than the best known is looked for.
  std::int64_t most(const Rows& rows) const {
    if (best_.cost) return (*best_.cost)[aim_] - grid_;
    const auto cost = [&](const Candidate& each) { return each.way.cost[aim_]; };
    std::int64_t sum = 0;
    for (const auto& row : rows) sum += cost(std::ranges::max(row, {}, cost));
    return sum;
  }

  /// Makes a complete choice of the fractions, the largest first, where it comes out complete.
  void round_off(const Rows& rows, const std::vector<std::vector<double>>& share) {
    std::vector<std::size_t> order(rows.size());
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::sort(order, {}, [&](std::size_t row) { return std::pair(-std::ranges::max(share[row]), row); });
    std::vector<int> left(supply_.begin(), supply_.end());
    Best found{Cost{}, std::vector<std::size_t>(rows.size())};
    for (const std::size_t row : order) {
      const Candidate* chosen = nullptr;
      std::pair<double, std::int64_t> least;
      for (std::size_t i = 0; i < rows[row].size(); ++i) {
        const Candidate& each = rows[row][i];
        const std::pair here(-share[row][i], each.excess);
        if (!to_be_had(each.way, left) || (chosen != nullptr && here >= least)) continue;
        chosen = &each;
        least = here;
      }
      if (chosen == nullptr) return;
      take(chosen->way, left);
      found.cost = *found.cost + chosen->way.cost;
      found.positions[row] = chosen->position;
    }
    if (!best_.cost || *found.cost < *best_.cost) best_ = std::move(found);
  }

  /// At the supply that is nearest to being half taken by a row; where none is, at a way of a row that has others.
  std::optional<Split> split_of(const Rows& rows, const std::vector<std::vector<double>>& share) const {
    constexpr double kWhole = 1e-4;
    std::optional<Split> split;
    double nearest = 0.5 - kWhole;
    for (std::size_t row = 0; row < rows.size(); ++row) {
      if (!split && rows[row].size() > 1) split = Split{row, -1, likeliest(rows[row], share[row])};
      for (std::size_t i = 0; i < supply_.size(); ++i) {
        const Split here{row, static_cast<int>(i)};
        const double far = std::abs(taken(rows[row], share[row], here) - 0.5);
        if (far >= nearest || std::ranges::all_of(rows[row], [&](const Candidate& each) { return here.has(each); }))
          continue;
        nearest = far;
        split = here;
      }
    }
    return split;
  }

  static double taken(const std::vector<Candidate>& row, const std::vector<double>& share, const Split& split) {
    double sum = 0;
    for (std::size_t i = 0; i < row.size(); ++i)
      if (share[i] > 0 && split.has(row[i])) sum += share[i];
    return sum;
  }

  static std::size_t likeliest(const std::vector<Candidate>& row, const std::vector<double>& share) {
    return row[static_cast<std::size_t>(std::ranges::max_element(share) - share.begin())].position;
  }

  /// Of what may still be better, those of one part.
  static Rows part_of(const Rows& rows, std::int64_t slack, const Split& split, bool with) {
    Rows part(rows.size());
    for (std::size_t row = 0; row < rows.size(); ++row)
      std::ranges::copy_if(rows[row], std::back_inserter(part[row]), [&](const Candidate& each) {
        return each.excess <= slack && (row != split.row || split.has(each) == with);
      });
    return part;
  }

  std::span<const int> supply_;
  std::size_t aim_;
  std::int64_t grid_;
  Best& best_;
  std::size_t work_ = 0;
};

}  // namespace

bool to_be_had(const Way& way, std::span<const int> left) {
  const auto [a, b] = way.takes;
  const int wanted = a == b ? 2 : 1;
  return (a < 0 || left[static_cast<std::size_t>(a)] >= wanted) &&
         (b < 0 || left[static_cast<std::size_t>(b)] >= wanted);
}

void take(const Way& way, std::vector<int>& left) {
  for (const int take : way.takes)
    if (take >= 0) --left[static_cast<std::size_t>(take)];
}

bool improve(Rows& rows, std::span<const int> supply, std::size_t aim, Best& best) {
  Branching branching(rows, supply, aim, best);
  const std::int64_t bound = branching.search(rows);
  if (!best.cost) return branching.within_reason();
  const std::int64_t slack = (*best.cost)[aim] * kFine - bound;
  for (auto& row : rows) std::erase_if(row, [&](const Candidate& each) { return each.excess > slack; });
  return branching.within_reason();
}

}  // namespace tenth::choice
