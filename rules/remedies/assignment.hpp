#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace tenth {

/// Costs of giving a row a column, row by row. As many columns as rows, or more.
struct CostMatrix {
  /// A pair that cannot be. Other costs lie within ± 2^60 / rows.
  static constexpr std::int64_t kBarred = INT64_MAX / 4;

  CostMatrix(std::size_t row_count, std::size_t column_count)
      : rows(row_count), columns(column_count), costs(row_count * column_count, kBarred) {}
  std::int64_t& at(std::size_t row, std::size_t column) { return costs[row * columns + column]; }
  const std::int64_t* row(std::size_t number) const { return costs.data() + number * columns; }

  std::size_t rows, columns;
  std::vector<std::int64_t> costs;
};

struct Assignment {
  std::vector<std::size_t> column_of;  ///< by row
  /// By column, none negative: what one more such column would be worth. With them added to the costs, every row has
  /// its column at its least cost.
  std::vector<std::int64_t> prices;
};

/// A column of its own for every row at the least sum of costs: exact, by shortest augmenting paths, in O(rows² ·
/// columns). Source: the Hungarian method in its shortest-path form, common practice. Empty where barred pairs leave
/// none.
std::optional<Assignment> assign(const CostMatrix& matrix);

}  // namespace tenth
