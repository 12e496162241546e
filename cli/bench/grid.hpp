#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tenth::cli {

/// How cells look, where the terminal can: never the only way to say something.
enum class Look { plain, strong, faint, alarm };

struct Cell {
  std::string text = " ";  ///< one character of UTF-8
  Look look = Look::plain;
  friend bool operator==(const Cell&, const Cell&) = default;
};

/// What a terminal shows: rows of cells, one column each.
class Grid {
 public:
  Grid(int rows, int columns);

  int rows() const { return static_cast<int>(cells_.size()); }
  int columns() const { return columns_; }
  const std::vector<Cell>& row(int number) const { return cells_[static_cast<std::size_t>(number)]; }

  /// What does not fit on the right is cut off, with a mark; a row that is not there takes nothing.
  void write(int row, int column, std::string_view text, Look look = Look::plain);
  /// The text ends in the last column.
  void write_right(int row, std::string_view text, Look look = Look::plain);
  void fill(int row, const std::string& character, Look look = Look::plain);

  /// The text of a row, without the blanks at its end.
  std::string text(int row) const;
  friend bool operator==(const Grid&, const Grid&) = default;

 private:
  std::vector<std::vector<Cell>> cells_;
  int columns_;
};

}  // namespace tenth::cli
