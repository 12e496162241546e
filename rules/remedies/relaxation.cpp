#include "rules/remedies/relaxation.hpp"

#include <algorithm>
#include <cmath>

namespace tenth::choice {
namespace {

/// How much of a row stays empty, which counts first, and what it costs.
using Value = std::array<double, 2>;

constexpr double kNothing = 1e-9;

bool less(const Value& a, const Value& b) {
  return a[0] < b[0] - kNothing || (a[0] < b[0] + kNothing && a[1] < b[1]);
}

/// A way, or a unit of a supply or an earlier aim that stays over: what it takes up of each constraint.
struct Column {
  const Candidate* way = nullptr;
  double cost = 0;
  std::array<std::pair<std::size_t, double>, 5> takes = {};  ///< its row, two supplies, two earlier aims
  std::size_t count = 0;

  void take(std::size_t constraint, double amount) { takes[count++] = {constraint, amount}; }
};

/// Constraints are the rows, then the supplies, then the earlier aims. It begins with every row empty.
class Simplex {
 public:
  Simplex(const Rows& rows, std::span<const int> supply, std::size_t aim, const Cost& best)
      : rows_(rows),
        aim_(aim),
        budgets_(rows.size() + supply.size()),
        size_(budgets_ + aim),
        inverse_(size_ * size_, 0),
        level_(size_, 1),
        value_(size_),
        basis_(size_, nullptr),
        entering_(size_) {
    for (std::size_t i = 0; i <= aim; ++i)
      for (const auto& row : rows)
        for (const Candidate& each : row) unit_[i] = std::max(unit_[i], static_cast<double>(each.way.cost[i]));
    for (std::size_t i = 0; i < size_; ++i) inverse_[i * size_ + i] = 1;
    for (std::size_t i = 0; i < rows.size(); ++i) value_[i][0] = 1;
    for (std::size_t i = 0; i < supply.size(); ++i) level_[rows.size() + i] = supply[i];
    for (std::size_t i = 0; i < aim; ++i) level_[budgets_ + i] = static_cast<double>(best[i]) / unit_[i];
    // A little more of each supply, of each another little, so that no two run out at once: the steps might not end.
    for (std::size_t i = rows.size(); i < budgets_; ++i)
      level_[i] += kLittle * (1 + std::fmod(static_cast<double>(i) * kUneven, 1));
  }

  Relaxed run() {
    const std::size_t most_steps = 100 * size_;
    std::size_t idle = 0;
    for (std::size_t turn = 0; idle <= rows_.size() && steps_ < most_steps; ++turn) {
      const std::size_t block = turn % (rows_.size() + 1);
      idle = (block < rows_.size() ? enter_way(block) : enter_rest()) ? 0 : idle + 1;
    }
    return result();
  }

 private:
  static constexpr double kLittle = 1e-7, kUneven = 0.618034;
  static constexpr double kLeastPivot = 1e-7;
  static constexpr double kEmpty = 1e-5;   // of a row, more than the little that was added
  static constexpr double kFilling = 100;  // what a full row is worth beside the dearest cost

  Column column_of(const Candidate& each, std::size_t row) const {
    Column column{&each, static_cast<double>(each.way.cost[aim_]) / unit_[aim_]};
    column.take(row, 1);
    for (const int take : each.way.takes)
      if (take >= 0) column.take(rows_.size() + static_cast<std::size_t>(take), 1);
    for (std::size_t i = 0; i < aim_; ++i) column.take(budgets_ + i, static_cast<double>(each.way.cost[i]) / unit_[i]);
    return column;
  }

  /// What entering it would change for each unit of it.
  Value gain(const Column& column) const {
    Value gain = {0, column.cost};
    for (std::size_t i = 0; i < column.count; ++i)
      for (std::size_t k = 0; k < 2; ++k) gain[k] -= value_[column.takes[i].first][k] * column.takes[i].second;
    return gain;
  }

  bool enter_way(std::size_t row) {
    Value least = {0, -kNothing};
    std::optional<Column> best;
    for (const Candidate& each : rows_[row]) {
      const Column column = column_of(each, row);
      if (const Value gain = this->gain(column); less(gain, least)) {
        least = gain;
        best = column;
      }
    }
    if (best) enter(*best, least);
    return best.has_value();
  }

  bool enter_rest() {
    Value least = {0, -kNothing};
    std::optional<Column> best;
    for (std::size_t i = rows_.size(); i < size_; ++i)
      if (const Value gain = {-value_[i][0], -value_[i][1]}; less(gain, least)) {
        least = gain;
        best.emplace().take(i, 1);
      }
    if (best) enter(*best, least);
    return best.has_value();
  }

  void enter(const Column& column, const Value& gain) {
    ++steps_;
    std::size_t leaving = size_;
    for (std::size_t k = 0; k < size_; ++k) {
      entering_[k] = 0;
      for (std::size_t i = 0; i < column.count; ++i)
        entering_[k] += column.takes[i].second * inverse_[k * size_ + column.takes[i].first];
      if (entering_[k] < kLeastPivot) continue;
      if (leaving == size_ || level_[k] / entering_[k] < level_[leaving] / entering_[leaving]) leaving = k;
    }
    if (leaving < size_) exchange(leaving, column, gain);
  }

  void exchange(std::size_t leaving, const Column& column, const Value& gain) {
    double* const pivot = &inverse_[leaving * size_];
    const double step = level_[leaving] / entering_[leaving];
    for (std::size_t i = 0; i < size_; ++i) {
      pivot[i] /= entering_[leaving];
      for (std::size_t k = 0; k < 2; ++k) value_[i][k] += gain[k] * pivot[i];
    }
    for (std::size_t k = 0; k < size_; ++k) {
      if (k == leaving || entering_[k] == 0) continue;
      for (std::size_t i = 0; i < size_; ++i) inverse_[k * size_ + i] -= entering_[k] * pivot[i];
      level_[k] = std::max(0.0, level_[k] - entering_[k] * step);
    }
    level_[leaving] = step;
    basis_[leaving] = column.way;
  }

  Relaxed result() const {
    Relaxed result;
    for (const auto& row : rows_) result.share.emplace_back(row.size(), 0);
    std::vector<double> filled(rows_.size(), 0);
    for (std::size_t k = 0; k < size_; ++k) {
      if (basis_[k] == nullptr) continue;
      const std::size_t row = basis_[k]->row;
      result.share[row][static_cast<std::size_t>(basis_[k] - rows_[row].data())] += level_[k];
      filled[row] += level_[k];
    }
    result.fits = std::ranges::min(filled) > 1 - kEmpty;
    const double unit = result.fits ? unit_[aim_] : static_cast<double>(kEmptyRow);
    const auto price = [&](std::size_t i) {
      return unit * std::max(0.0, result.fits ? -value_[i][1] - kFilling * value_[i][0] : -value_[i][0]);
    };
    for (std::size_t i = rows_.size(); i < budgets_; ++i) result.prices.push_back(price(i));
    for (std::size_t i = 0; i < aim_; ++i) result.budgets.push_back(price(budgets_ + i) / unit_[i]);
    result.work = steps_ * size_ * size_;
    return result;
  }

  const Rows& rows_;
  std::size_t aim_, budgets_, size_, steps_ = 0;
  std::array<double, 3> unit_ = {1, 1, 1};  ///< the dearest cost of each aim: all numbers are of the size of one
  std::vector<double> inverse_;             ///< of the basis, row by row
  std::vector<double> level_;               ///< how much of each member of the basis
  std::vector<Value> value_;                ///< of each constraint
  std::vector<const Candidate*> basis_;     ///< null: no way
  std::vector<double> entering_;
};

}  // namespace

Relaxed relaxed(const Rows& rows, std::span<const int> supply, std::size_t aim, const Cost& best) {
  return Simplex(rows, supply, aim, best).run();
}

}  // namespace tenth::choice
