#include "rules/remedies/assignment.hpp"

#include <algorithm>

namespace tenth {
namespace {

constexpr std::size_t kNone = SIZE_MAX;
constexpr std::int64_t kFar = INT64_MAX / 2;

/// Rows are given columns one after the other. The prices keep every pair's reduced cost from going below zero, and at
/// zero for the pairs given.
class Assigning {
 public:
  explicit Assigning(const CostMatrix& matrix)
      : matrix_(matrix),
        row_prices_(matrix.rows, 0),
        column_prices_(matrix.columns, 0),
        row_of_(matrix.columns, kNone),
        column_of_(matrix.rows, kNone),
        distance_(matrix.columns),
        from_(matrix.columns),
        columns_(matrix.columns) {}

  bool give_all() {
    for (std::size_t row = 0; row < matrix_.rows; ++row)
      if (!give(row)) return false;
    return true;
  }

  Assignment result() && {
    for (std::int64_t& price : column_prices_) price = -price;
    return {std::move(column_of_), std::move(column_prices_)};
  }

 private:
  /// The shortest path from a row to a column that is free: a search by Dijkstra over reduced costs. `columns_` holds
  /// first the columns reached, then those at the present distance, then the others.
  bool give(std::size_t row) {
    for (std::size_t i = 0; i < columns_.size(); ++i) columns_[i] = i;
    std::ranges::fill(distance_, kFar);
    std::size_t reached = 0, near = 0, end = kNone;
    std::int64_t path = 0;
    relax(row, 0, near, path, end);
    while (end == kNone) {
      if (reached == near) {
        path = nearest(near);
        if (path >= CostMatrix::kBarred / 2) return false;
        for (std::size_t i = reached; i < near && end == kNone; ++i)
          if (row_of_[columns_[i]] == kNone) end = columns_[i];
        continue;
      }
      const std::size_t column = columns_[reached++];
      relax(row_of_[column], distance_[column], near, path, end);
    }
    reprice(row, reached, path);
    turn(row, end);
    return true;
  }

  /// Brings the columns at the least distance to the front of those not reached.
  std::int64_t nearest(std::size_t& near) {
    std::int64_t least = kFar;
    for (std::size_t i = near, first = near; i < columns_.size(); ++i) {
      if (distance_[columns_[i]] > least) continue;
      if (distance_[columns_[i]] < least) near = first;
      least = distance_[columns_[i]];
      std::swap(columns_[i], columns_[near++]);
    }
    return least;
  }

  /// Paths that go on from this row.
  void relax(std::size_t row, std::int64_t so_far, std::size_t& near, std::int64_t path, std::size_t& end) {
    const std::int64_t* const costs = matrix_.row(row);
    const std::int64_t base = so_far - row_prices_[row];
    for (std::size_t i = near; i < columns_.size(); ++i) {
      const std::size_t column = columns_[i];
      const std::int64_t through = base + costs[column] - column_prices_[column];
      if (through >= distance_[column]) continue;
      distance_[column] = through;
      from_[column] = row;
      if (through > path || near == 0) continue;  // before the first search for the nearest there is no distance yet
      if (row_of_[column] == kNone) {
        end = column;
        return;
      }
      std::swap(columns_[i], columns_[near++]);
    }
  }

  void reprice(std::size_t row, std::size_t reached, std::int64_t path) {
    row_prices_[row] += path;
    for (std::size_t i = 0; i < reached; ++i) {
      const std::size_t column = columns_[i];
      const std::int64_t change = path - distance_[column];
      column_prices_[column] -= change;
      row_prices_[row_of_[column]] += change;
    }
  }

  /// Along the path every row takes the column that follows it.
  void turn(std::size_t row, std::size_t column) {
    for (std::size_t at = kNone; at != row;) {
      at = from_[column];
      row_of_[column] = at;
      std::swap(column_of_[at], column);
    }
  }

  const CostMatrix& matrix_;
  std::vector<std::int64_t> row_prices_, column_prices_;
  std::vector<std::size_t> row_of_, column_of_;
  std::vector<std::int64_t> distance_;
  std::vector<std::size_t> from_, columns_;
};

}  // namespace

std::optional<Assignment> assign(const CostMatrix& matrix) {
  Assigning assigning(matrix);
  if (!assigning.give_all()) return std::nullopt;
  return std::move(assigning).result();
}

}  // namespace tenth
