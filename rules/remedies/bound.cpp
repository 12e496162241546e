#include "rules/remedies/bound.hpp"

#include <algorithm>
#include <cmath>

#include "rules/wide.hpp"

namespace tenth::choice {
namespace {

constexpr int kPoint = 30;  // binary places of the price of an earlier aim

/// Whole prices; times supplies they may leave 64 bits. Rounded down for what a way costs of an earlier aim, and up for
/// what may be spent of it.
class Prices {
 public:
  Prices(const Relaxed& relaxed, std::int64_t dearest) {
    constexpr double kDearest = 1024;  // times the dearest cost: so sums stay within their numbers
    const double most = kDearest * static_cast<double>(dearest * kFine);
    for (const double each : relaxed.prices) supplies_.push_back(std::llround(std::min(each * kFine, most)));
    for (const double each : relaxed.budgets)
      budgets_.push_back(static_cast<Wide>(std::ldexp(std::min(each * kFine, most), kPoint)));
  }

  std::int64_t of(const Way& way) const {
    std::int64_t sum = 0;
    for (const int take : way.takes)
      if (take >= 0) sum += supplies_[static_cast<std::size_t>(take)];
    for (std::size_t i = 0; i < budgets_.size(); ++i)
      sum += static_cast<std::int64_t>((budgets_[i] * way.cost[i]) >> kPoint);
    return sum;
  }

  Wide of_all(std::span<const int> supply, const Cost& best) const {
    Wide sum = 0;
    for (std::size_t i = 0; i < supplies_.size(); ++i) sum += Wide{supplies_[i]} * supply[i];
    for (std::size_t i = 0; i < budgets_.size(); ++i) sum += ((budgets_[i] * best[i]) >> kPoint) + 1;
    return sum;
  }

 private:
  std::vector<std::int64_t> supplies_;
  std::vector<Wide> budgets_;
};

}  // namespace

std::int64_t bound(Rows& rows, std::span<const int> supply, std::size_t aim, const Cost& best, const Relaxed& relaxed) {
  std::int64_t dearest = relaxed.fits ? 1 : kEmptyRow;
  for (const auto& row : rows)
    for (const Candidate& each : row) dearest = std::max(dearest, each.way.cost[aim]);
  const Prices prices(relaxed, dearest);
  Wide sum = -prices.of_all(supply, best);
  for (auto& row : rows) {
    for (Candidate& each : row) each.excess = (relaxed.fits ? each.way.cost[aim] * kFine : 0) + prices.of(each.way);
    const std::int64_t least = std::ranges::min(row, {}, &Candidate::excess).excess;
    for (Candidate& each : row) each.excess -= least;
    sum += least;
  }
  if (relaxed.fits) return static_cast<std::int64_t>(std::max<Wide>(sum, INT64_MIN / 4));
  if (sum > 0) return INT64_MAX;  // what is to be filled is worth more than all there is
  for (auto& row : rows)
    for (Candidate& each : row) each.excess = 0;
  return 0;
}

}  // namespace tenth::choice
