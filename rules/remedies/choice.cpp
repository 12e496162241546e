#include "rules/remedies/choice.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <memory>
#include <numeric>

#include "rules/remedies/layers.hpp"

namespace tenth {

Cost operator+(const Cost& a, const Cost& b) {
  return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}

namespace choice {
namespace {

constexpr std::size_t kAims = std::tuple_size_v<Cost>;

/// More than any excess that occurs; sums of a few stay within 64 bits.
constexpr std::int64_t kEndless = std::int64_t{1} << 61;

/// What all costs of an aim are whole multiples of: a better choice is better by at least that.
std::int64_t grid_of(const Rows& rows, std::size_t aim) {
  std::int64_t grid = 0;
  for (const auto& row : rows)
    for (const Candidate& each : row) grid = std::gcd(grid, each.way.cost[aim]);
  return std::max<std::int64_t>(grid, 1);
}

/// Goes through the rows, those with the fewest ways first, with all partial choices that may still become the best.
class Walk {
 public:
  Walk(const Rows& rows, std::span<const int> supply, std::size_t aim, std::array<std::int64_t, kAims> slack,
       std::int64_t bound, Best& best)
      : rows_(rows), supply_(supply), aim_(aim), slack_(slack), bound_(bound), grid_(grid_of(rows, aim)), best_(best) {
    for (auto& row : rows_)
      std::ranges::sort(row, {}, [&](const Candidate& each) { return std::pair(each.excess[aim], each.position); });
    std::ranges::sort(rows_, {}, [](const auto& row) { return std::pair(row.size(), row.front().row); });
  }

  /// Narrow first, which finds good choices quickly, then wider, until nothing that mattered was left out. False: too
  /// many for that.
  bool run() {
    for (const std::size_t width : {kWidest / 600, kWidest / 15, kWidest})
      if (pass(std::min(width, kMostWork / rows_.size()))) return true;
    return false;
  }

 private:
  static constexpr std::size_t kMostWork = 3'000'000;  // partial choices over all rows: some seconds
  static constexpr std::size_t kWidest = 300'000;      // about 150 MB at most where forty kinds are on the shelf

  bool pass(std::size_t width) {
    // Only a choice better by at least one grid of the costs is looked for.
    if (best_.cost) slack_[aim_] = ((*best_.cost)[aim_] - grid_) * kFine - bound_;
    bool whole = true;
    std::vector<std::vector<Partial>> history;
    auto layer = std::make_unique<Layer>(supply_.size());
    layer->add(supply_, {}, {{}, slack_, 0, 0});
    for (std::size_t row = 0; row < rows_.size() && layer->size() > 0; ++row) {
      auto next = std::make_unique<Layer>(supply_.size());
      for (std::size_t i = 0; i < layer->size(); ++i) {
        grow(*layer, i, row, *next);
        const bool last = i + 1 == layer->size();
        if (next->size() <= (last ? width : 2 * width)) continue;
        next->cut(width, aim_);
        whole = false;
      }
      history.push_back(next->partials());
      layer = std::move(next);
    }
    if (history.size() == rows_.size()) keep(history);
    return whole;
  }

  bool may_be(const Candidate& each, std::span<const int> left, const Partial& partial) const {
    for (std::size_t aim = 0; aim <= aim_; ++aim)
      if (each.excess[aim] > partial.slack[aim]) return false;
    return to_be_had(each.way, left);
  }

  /// Every row from here on still has a way, and their cheapest together are not too dear.
  bool can_end(std::span<const int> left, const Partial& partial, std::size_t from) const {
    std::int64_t sum = 0;
    for (std::size_t row = from; row < rows_.size(); ++row) {
      const auto may = [&](const Candidate& each) { return may_be(each, left, partial); };
      const auto first = std::ranges::find_if(rows_[row], may);
      if (first == rows_[row].end()) return false;
      sum += first->excess[aim_];
      if (sum > partial.slack[aim_]) return false;
    }
    return true;
  }

  void grow(const Layer& layer, std::size_t number, std::size_t row, Layer& next) const {
    const Partial& partial = layer.at(number);
    const auto left = layer.left(number);
    if (!can_end(left, partial, row)) return;
    for (std::size_t i = 0; i < rows_[row].size(); ++i) {
      const Candidate& each = rows_[row][i];
      if (each.excess[aim_] > partial.slack[aim_]) break;
      if (!may_be(each, left, partial)) continue;
      Partial grown{partial.cost + each.way.cost, partial.slack, number, i};
      for (std::size_t aim = 0; aim <= aim_; ++aim) grown.slack[aim] -= each.excess[aim];
      next.add(left, each.way, grown);
    }
  }

  /// The cheapest of the complete ones, where it is better than the best known.
  void keep(const std::vector<std::vector<Partial>>& history) {
    if (history.back().empty()) return;
    const auto cheapest = std::ranges::min_element(history.back(), {}, &Partial::cost);
    if (best_.cost && cheapest->cost >= *best_.cost) return;
    best_ = {cheapest->cost, std::vector<std::size_t>(rows_.size())};
    auto number = static_cast<std::size_t>(cheapest - history.back().begin());
    for (std::size_t row = rows_.size(); row-- > 0;) {
      const Partial& partial = history[row][number];
      const Candidate& each = rows_[row][partial.candidate];
      best_.positions[each.row] = each.position;
      number = partial.parent;
    }
  }

  Rows rows_;
  std::span<const int> supply_;
  std::size_t aim_;
  std::array<std::int64_t, kAims> slack_;
  std::int64_t bound_, grid_;
  Best& best_;
};

/// Without the ways that ask for more than there is from the start, which would only loosen the bounds; and of those
/// that take the same only the cheapest.
Rows candidates(const std::vector<std::vector<Way>>& rows, const std::vector<int>& supply) {
  Rows result(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row) {
    std::map<std::pair<int, int>, std::size_t> cheapest;
    for (std::size_t i = 0; i < rows[row].size(); ++i) {
      const Way& way = rows[row][i];
      if (!to_be_had(way, supply)) continue;
      const auto [found, fresh] = cheapest.try_emplace(std::minmax(way.takes[0], way.takes[1]), i);
      if (!fresh && way.cost < rows[row][found->second].cost) found->second = i;
    }
    for (const auto& [takes, i] : cheapest) result[row].push_back({rows[row][i], row, i, {}});
  }
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
}

/// What takes the same as the first way of every row, where the supplies allow it: what is there already is worth
/// starting from.
Best first_of_each(const Rows& rows, const std::vector<std::vector<Way>>& ways, std::vector<int> left) {
  Best best{Cost{}, std::vector<std::size_t>(rows.size(), 0)};
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const Way& first = ways[row].front();
    const auto takes_the_same = [&](const Candidate& each) {
      return std::ranges::is_permutation(each.way.takes, first.takes);
    };
    const auto found = std::ranges::find_if(rows[row], takes_the_same);
    if (found == rows[row].end() || !to_be_had(found->way, left)) return {};
    for (const int take : found->way.takes)
      if (take >= 0) --left[static_cast<std::size_t>(take)];
    best.cost = *best.cost + found->way.cost;
    best.positions[row] = found->position;
  }
  return best;
}

}  // namespace
}  // namespace choice

std::optional<Choice> best_choice(const std::vector<std::vector<Way>>& ways, std::vector<int> supply) {
  using namespace choice;
  Rows rows = candidates(ways, supply);
  if (std::ranges::any_of(rows, [](const auto& row) { return row.empty(); })) return std::nullopt;
  Best best = first_of_each(rows, ways, supply);
  keep_scarce(rows, supply);
  bool proven = true;
  std::array<std::int64_t, kAims> slack = {kEndless, kEndless, kEndless};
  for (std::size_t aim = 0; aim < kAims; ++aim) {
    SidePrices prices;
    std::int64_t bound = price(rows, supply, aim, best.cost ? (*best.cost)[0] : 0, best, prices);
    constexpr int kLifts = 20;  // each takes the other side's new prices into account
    for (int i = 0; i < kLifts; ++i)
      if (const auto lifted = lift(rows, supply, aim, prices)) bound += *lifted;
    proven = Walk(rows, supply, aim, slack, bound, best).run() && proven;
    if (!best.cost) return std::nullopt;
    slack[aim] = (*best.cost)[aim] * kFine - bound;
    for (auto& row : rows) std::erase_if(row, [&](const Candidate& each) { return each.excess[aim] > slack[aim]; });
  }
  return Choice{std::move(best.positions), proven};
}

}  // namespace tenth
