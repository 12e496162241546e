#include "rules/remedies/prices.hpp"

#include <algorithm>
#include <cmath>

namespace tenth::choice {
namespace {

__extension__ using Wide = __int128;  // prices times supplies may leave 64 bits

/// The prices, one a supply and last the one of failing the first aim; all in 1/kFine of the aim's unit, none negative.
using Prices = std::vector<double>;

constexpr double kDearestPrice = 4;  // times the dearest cost: so the sums of 200 rows stay within 64 bits

class Pricing {
 public:
  Pricing(Rows& rows, std::span<const int> supply, std::size_t aim, std::int64_t may_fail, Best& best)
      : rows_(rows),
        supply_(supply),
        aim_(aim),
        may_fail_(may_fail),
        best_(best),
        prices_(supply.size() + 1, 0),
        whole_(supply.size() + 1) {
    for (const auto& row : rows_)
      for (const Candidate& each : row) dearest_ = std::max(dearest_, each.way.cost[aim_]);
  }

  std::int64_t run() {
    climb();
    std::ranges::transform(prices_, whole_.begin(), [](double price) { return std::llround(price); });
    return settle();
  }

  /// Of the supplies that one side alone takes from; the others' prices are the same on both sides and stay as they
  /// are.
  SidePrices side_prices() const {
    SidePrices result;
    for (std::size_t side = 0; side < 2; ++side) {
      result[side].assign(whole_.begin(), whole_.end() - 1);
      for (const auto& row : rows_)
        for (const Candidate& each : row)
          if (const int other = each.way.takes[1 - side]; other >= 0) result[side][static_cast<std::size_t>(other)] = 0;
    }
    return result;
  }

 private:
  double priced(const Candidate& each, const Prices& prices) const {
    double sum = static_cast<double>(each.way.cost[aim_] * kFine);
    for (const int take : each.way.takes)
      if (take >= 0) sum += prices[static_cast<std::size_t>(take)];
    return aim_ > 0 ? sum + prices.back() * static_cast<double>(each.way.cost[0]) : sum;
  }

  /// Takes the cheapest way of each row at these prices; `demand` is what they ask beyond the supplies.
  double relaxed(const Prices& prices, std::vector<double>& demand) const {
    double bound = -prices.back() * static_cast<double>(may_fail_);
    demand.back() = -static_cast<double>(may_fail_);
    for (std::size_t i = 0; i < supply_.size(); ++i) {
      demand[i] = -supply_[i];
      bound -= prices[i] * supply_[i];
    }
    for (const auto& row : rows_) {
      const auto cheapest = std::ranges::min_element(row, {}, [&](const Candidate& e) { return priced(e, prices); });
      bound += priced(*cheapest, prices);
      for (const int take : cheapest->way.takes)
        if (take >= 0) demand[static_cast<std::size_t>(take)] += 1;
      demand.back() += static_cast<double>(cheapest->way.cost[0]);
    }
    return bound;
  }

  /// Polyak's step along what is asked beyond the supplies, towards the best cost known.
  bool step(Prices& prices, const std::vector<double>& demand, double reach) const {
    double norm = 0;
    for (std::size_t i = 0; i < prices.size(); ++i)
      if (prices[i] > 0 || demand[i] > 0) norm += demand[i] * demand[i];
    if (norm == 0 || reach <= 0) return false;
    const double most = kDearestPrice * static_cast<double>(dearest_ * kFine);
    const std::size_t last = aim_ > 0 ? prices.size() : prices.size() - 1;
    for (std::size_t i = 0; i < last; ++i) prices[i] = std::clamp(prices[i] + reach / norm * demand[i], 0.0, most);
    return true;
  }

  double target() const {
    if (best_.cost) return static_cast<double>((*best_.cost)[aim_] * kFine);
    std::int64_t sum = 0;
    for (const auto& row : rows_)
      sum += std::ranges::max(row, {}, [&](const Candidate& e) { return e.way.cost[aim_]; }).way.cost[aim_];
    return static_cast<double>(sum * kFine);
  }

  void climb() {
    constexpr int kRounds = 300, kPatience = 10, kTryEvery = 5;
    Prices prices = prices_;
    std::vector<double> demand(prices.size());
    double reached = -1, stride = 1;
    for (int round = 0, idle = 0; round < kRounds; ++round) {
      const double bound = relaxed(prices, demand);
      idle = bound > reached ? 0 : idle + 1;
      if (bound > reached) {
        reached = bound;
        prices_ = prices;
      }
      if (round % kTryEvery == 0) try_choice(prices, static_cast<std::size_t>(round / kTryEvery));
      if (idle > kPatience) {
        stride /= 2;
        idle = 0;
        prices = prices_;
        relaxed(prices, demand);
      }
      if (!step(prices, demand, stride * (target() - bound))) return;
    }
  }

  /// Row by row the cheapest way that is still to be had: a good choice, where it comes out complete.
  void try_choice(const Prices& prices, std::size_t first) {
    std::vector<int> left(supply_.begin(), supply_.end());
    Best found{Cost{}, std::vector<std::size_t>(rows_.size())};
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const std::size_t row = (first + i) % rows_.size();
      const Candidate* chosen = nullptr;
      for (const Candidate& each : rows_[row])
        if (to_be_had(each.way, left) && (chosen == nullptr || priced(each, prices) < priced(*chosen, prices)))
          chosen = &each;
      if (chosen == nullptr) return;
      for (const int take : chosen->way.takes)
        if (take >= 0) --left[static_cast<std::size_t>(take)];
      found.cost = *found.cost + chosen->way.cost;
      found.positions[row] = chosen->position;
    }
    if (!best_.cost || *found.cost < *best_.cost) best_ = std::move(found);
  }

  std::int64_t priced(const Candidate& each) const {
    std::int64_t sum = each.way.cost[aim_] * kFine + (aim_ > 0 ? whole_.back() * each.way.cost[0] : 0);
    for (const int take : each.way.takes)
      if (take >= 0) sum += whole_[static_cast<std::size_t>(take)];
    return sum;
  }

  /// Any whole prices give a true bound, and exact excesses.
  std::int64_t settle() {
    Wide bound = -Wide{whole_.back()} * may_fail_;
    for (std::size_t i = 0; i < supply_.size(); ++i) bound -= Wide{whole_[i]} * supply_[i];
    for (auto& row : rows_) {
      for (Candidate& each : row) each.excess[aim_] = priced(each);
      const auto excess = [&](const Candidate& each) { return each.excess[aim_]; };
      const std::int64_t least = excess(std::ranges::min(row, {}, excess));
      for (Candidate& each : row) each.excess[aim_] -= least;
      bound += least;
    }
    return static_cast<std::int64_t>(bound);
  }

  Rows& rows_;
  std::span<const int> supply_;
  std::size_t aim_;
  std::int64_t may_fail_, dearest_ = 0;
  Best& best_;
  Prices prices_;
  std::vector<std::int64_t> whole_;
};

}  // namespace

bool to_be_had(const Way& way, std::span<const int> left) {
  const auto [a, b] = way.takes;
  const int wanted = a == b ? 2 : 1;
  return (a < 0 || left[static_cast<std::size_t>(a)] >= wanted) &&
         (b < 0 || left[static_cast<std::size_t>(b)] >= wanted);
}

std::int64_t price(Rows& rows, std::span<const int> supply, std::size_t aim, std::int64_t may_fail, Best& best,
                   SidePrices& prices) {
  Pricing pricing(rows, supply, aim, may_fail, best);
  const std::int64_t bound = pricing.run();
  prices = pricing.side_prices();
  return bound;
}

}  // namespace tenth::choice
