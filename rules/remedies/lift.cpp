#include <algorithm>

#include "rules/remedies/assignment.hpp"
#include "rules/remedies/prices.hpp"

namespace tenth::choice {
namespace {

/// One side's takes as an assignment: a column for each unit of a supply that the rows may want, then for every row one
/// of its own, for ways that take nothing on this side.
class SideColumns {
 public:
  SideColumns(const Rows& rows, std::span<const int> left, std::size_t side)
      : side_(side), first_(left.size() + 1), costs_(0, 0) {
    std::vector<std::size_t> wanted(left.size());
    for (const auto& row : rows) count_row(row, wanted);
    for (std::size_t i = 0; i < left.size(); ++i)
      first_[i + 1] = first_[i] + std::min(wanted[i], static_cast<std::size_t>(left[i]));
    costs_ = CostMatrix(rows.size(), first_.back() + rows.size());
  }

  void fill(const Rows& rows, std::size_t aim) {
    for (std::size_t row = 0; row < rows.size(); ++row)
      for (const Candidate& each : rows[row]) {
        const int take = each.way.takes[side_];
        const auto supply = static_cast<std::size_t>(take);
        const std::size_t from = take < 0 ? first_.back() + row : first_[supply];
        const std::size_t until = take < 0 ? from + 1 : first_[supply + 1];
        for (std::size_t column = from; column < until; ++column)
          costs_.at(row, column) = std::min(costs_.at(row, column), each.excess[aim]);
      }
  }

  /// The price of each supply: the least of its units' prices holds for all of them.
  std::optional<std::vector<std::int64_t>> prices() const {
    const auto assigned = assign(costs_);
    if (!assigned) return std::nullopt;
    std::vector<std::int64_t> result(first_.size() - 1, 0);
    for (std::size_t i = 0; i < result.size(); ++i)
      for (std::size_t column = first_[i]; column < first_[i + 1]; ++column)
        result[i] = column == first_[i] ? assigned->prices[column] : std::min(result[i], assigned->prices[column]);
    return result;
  }

 private:
  void count_row(const std::vector<Candidate>& row, std::vector<std::size_t>& wanted) const {
    std::vector<bool> seen(wanted.size());
    for (const Candidate& each : row) {
      const int take = each.way.takes[side_];
      if (take < 0 || seen[static_cast<std::size_t>(take)]) continue;
      seen[static_cast<std::size_t>(take)] = true;
      ++wanted[static_cast<std::size_t>(take)];
    }
  }

  std::size_t side_;
  std::vector<std::size_t> first_;
  CostMatrix costs_;
};

std::int64_t take_least(std::vector<Candidate>& row, std::size_t aim) {
  const auto excess = [&](const Candidate& each) { return each.excess[aim]; };
  const std::int64_t least = excess(std::ranges::min(row, {}, excess));
  for (Candidate& each : row) each.excess[aim] -= least;
  return least;
}

/// Puts prices into the excesses, or takes them out; returns how the bound moves by the supplies' own worth.
std::int64_t add(Rows& rows, std::span<const int> left, std::size_t aim, std::size_t side,
                 const std::vector<std::int64_t>& prices, int sign) {
  std::int64_t moved = 0;
  for (std::size_t i = 0; i < left.size(); ++i) moved -= sign * prices[i] * left[i];
  for (auto& row : rows)
    for (Candidate& each : row)
      if (const int take = each.way.takes[side]; take >= 0)
        each.excess[aim] += sign * prices[static_cast<std::size_t>(take)];
  return moved;
}

}  // namespace

std::optional<std::int64_t> lift(Rows& rows, std::span<const int> left, std::size_t aim, SidePrices& prices) {
  std::int64_t raised = 0;
  for (std::size_t side = 0; side < 2; ++side) {
    raised += add(rows, left, aim, side, prices[side], -1);
    SideColumns columns(rows, left, side);
    columns.fill(rows, aim);
    auto better = columns.prices();
    if (!better) return std::nullopt;
    prices[side] = *std::move(better);
    raised += add(rows, left, aim, side, prices[side], 1);
    for (auto& row : rows) raised += take_least(row, aim);
  }
  return raised;
}

}  // namespace tenth::choice
