#include "rules/remedies/choice.hpp"

#include <algorithm>
#include <bit>
#include <numeric>
#include <span>
#include <unordered_map>

#include "rules/remedies/prices.hpp"

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

/// What is left of the supplies that can run out, packed into bits: what a partial choice is known by.
using State = std::array<std::uint64_t, 4>;

struct StateHash {
  std::size_t operator()(const State& state) const {
    std::uint64_t hash = 0;
    for (const std::uint64_t part : state) hash = (hash ^ part) * 0x9E3779B97F4A7C15U, hash ^= hash >> 32U;
    return hash;
  }
};

/// Walks the rows depth first, those with the fewest ways first, with what is left of the supplies and of the excess
/// that each aim still allows.
class Walk {
 public:
  /// `slack` by aim: how far the excesses may add up; of the present aim that follows from the best cost known. All
  /// costs of the aim are multiples of `grid`.
  Walk(const Rows& rows, std::vector<int> supply, std::size_t aim, std::array<std::int64_t, kAims> slack,
       std::int64_t bound, Best& best)
      : rows_(rows), left_(std::move(supply)), aim_(aim), slack_(slack), bound_(bound), best_(best) {
    grid_ = grid_of(rows, aim);
    tighten();
    for (auto& row : rows_) {
      std::erase_if(row, [&](const Candidate& each) { return each.excess[aim] > slack_[aim]; });
      std::ranges::stable_sort(row, {}, [&](const Candidate& each) { return each.excess[aim]; });
    }
    std::ranges::stable_sort(rows_, {}, &std::vector<Candidate>::size);
    chosen_.resize(rows_.size());
    lay_out_states();
  }

  void run() {
    states_.resize(rows_.size());
    descend(0);
  }

 private:
  /// Only a choice better by at least one grid is looked for.
  void tighten() {
    if (best_.cost) slack_[aim_] = ((*best_.cost)[aim_] - grid_) * kFine - bound_ - spent_;
  }

  /// A supply that could serve every side of every row never runs out.
  void lay_out_states() {
    const int most = 2 * static_cast<int>(rows_.size());
    std::size_t at = 0;
    bits_.assign(left_.size(), {0, -1});
    for (std::size_t i = 0; i < left_.size(); ++i) {
      if (left_[i] >= most) continue;
      const auto width = static_cast<int>(std::bit_width(static_cast<std::uint64_t>(left_[i])));
      const std::size_t room = 64 - at % 64;
      if (static_cast<std::size_t>(width) > room) at += room;
      bits_[i] = {static_cast<int>(at / 64), static_cast<int>(at % 64)};
      at += static_cast<std::size_t>(width);
    }
    packed_ = at <= 64 * std::tuple_size_v<State>;
    if (packed_)
      for (std::size_t i = 0; i < left_.size(); ++i) move(i, left_[i]);
  }

  void move(std::size_t supply, int units) {
    if (const auto [part, shift] = bits_[supply]; packed_ && shift >= 0)
      state_[static_cast<std::size_t>(part)] += static_cast<std::uint64_t>(static_cast<std::int64_t>(units))
                                                << static_cast<unsigned>(shift);
  }

  bool may_be(const Candidate& each) const {
    if (!to_be_had(each.way, left_)) return false;
    for (std::size_t aim = 0; aim <= aim_; ++aim)
      if (each.excess[aim] > slack_[aim]) return false;
    return true;
  }

  void take(const Candidate& each, int sign) {
    for (const int take : each.way.takes)
      if (take >= 0) {
        left_[static_cast<std::size_t>(take)] -= sign;
        move(static_cast<std::size_t>(take), -sign);
      }
    for (std::size_t aim = 0; aim <= aim_; ++aim) slack_[aim] -= sign * each.excess[aim];
    spent_ += sign * each.excess[aim_];
  }

  /// Every row from here on still has a way, and their cheapest together are not too dear.
  bool can_end(std::size_t depth) const {
    std::int64_t sum = 0;
    for (std::size_t row = depth; row < rows_.size(); ++row) {
      const auto first = std::ranges::find_if(rows_[row], [&](const Candidate& each) { return may_be(each); });
      if (first == rows_[row].end()) return false;
      sum += first->excess[aim_];
      if (sum > slack_[aim_]) return false;
    }
    return true;
  }

  /// A partial choice that left the same supplies at no more cost was walked already.
  bool seen(std::size_t depth) {
    constexpr std::size_t kMostStates = 400'000;
    if (!packed_) return false;
    Cost cost = {};
    std::copy_n(cost_.begin(), aim_ + 1, cost.begin());
    const auto found = states_[depth].find(state_);
    if (found != states_[depth].end()) {
      if (found->second <= cost) return true;
      found->second = cost;
    } else if (remembered_ < kMostStates) {
      states_[depth].emplace(state_, cost);
      ++remembered_;
    }
    return false;
  }

  void descend(std::size_t depth) {
    if (depth == rows_.size()) return keep();
    if (!can_end(depth) || seen(depth)) return;
    for (const Candidate& each : rows_[depth]) {
      if (each.excess[aim_] > slack_[aim_]) break;
      if (!may_be(each)) continue;
      const Cost before = cost_;
      chosen_[depth] = &each;
      cost_ = cost_ + each.way.cost;
      take(each, 1);
      descend(depth + 1);
      take(each, -1);
      tighten();
      cost_ = before;
    }
  }

  void keep() {
    if (best_.cost && cost_ >= *best_.cost) return;
    best_ = {cost_, std::vector<std::size_t>(rows_.size())};
    for (const Candidate* each : chosen_) best_.positions[each->row] = each->position;
    tighten();
  }

  Rows rows_;
  std::vector<int> left_;
  std::size_t aim_;
  std::array<std::int64_t, kAims> slack_;
  std::int64_t bound_, grid_ = 1, spent_ = 0;
  Best& best_;
  Cost cost_ = {};
  std::vector<const Candidate*> chosen_;
  std::vector<std::pair<int, int>> bits_;  ///< by supply, part of the state and shift; -1: never runs out
  bool packed_ = false;
  State state_ = {};
  std::vector<std::unordered_map<State, Cost, StateHash>> states_;  ///< by depth
  std::size_t remembered_ = 0;
};

/// Without the ways that ask for more than there is from the start: they would only loosen the bounds.
Rows candidates(const std::vector<std::vector<Way>>& rows, const std::vector<int>& supply) {
  Rows result(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row)
    for (std::size_t i = 0; i < rows[row].size(); ++i)
      if (to_be_had(rows[row][i], supply)) result[row].push_back({rows[row][i], row, i, {}});
  return result;
}

}  // namespace
}  // namespace choice

std::optional<std::vector<std::size_t>> best_choice(const std::vector<std::vector<Way>>& ways,
                                                    std::vector<int> supply) {
  using namespace choice;
  const int most = 2 * static_cast<int>(ways.size());
  for (int& each : supply) each = std::min(each, most);
  Rows rows = candidates(ways, supply);
  if (std::ranges::any_of(rows, [](const auto& row) { return row.empty(); })) return std::nullopt;
  Best best;
  std::array<std::int64_t, kAims> slack = {kEndless, kEndless, kEndless};
  for (std::size_t aim = 0; aim < kAims; ++aim) {
    SidePrices prices;
    std::int64_t bound = price(rows, supply, aim, best.cost ? (*best.cost)[0] : 0, best, prices);
    constexpr int kLifts = 20;  // each takes the other side's new prices into account
    for (int i = 0; i < kLifts; ++i)
      if (const auto lifted = lift(rows, supply, aim, prices)) bound += *lifted;
    Walk(rows, supply, aim, slack, bound, best).run();
    if (!best.cost) return std::nullopt;
    slack[aim] = (*best.cost)[aim] * kFine - bound;
    for (auto& row : rows) std::erase_if(row, [&](const Candidate& each) { return each.excess[aim] > slack[aim]; });
  }
  return best.positions;
}

}  // namespace tenth
