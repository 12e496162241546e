#include "cli/bench/grid.hpp"

#include <algorithm>

#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

std::size_t size_of(int number) {
  return static_cast<std::size_t>(std::max(number, 0));
}

/// The characters of a text.
std::vector<std::string> characters(std::string_view text) {
  std::vector<std::string> all;
  for (const char c : text) {
    const bool within = (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
    if (within && !all.empty())
      all.back() += c;
    else
      all.emplace_back(1, c);
  }
  return all;
}

}  // namespace

Grid::Grid(int rows, int columns)
    : cells_(size_of(rows), std::vector<Cell>(size_of(columns))), columns_(std::max(columns, 0)) {}

void Grid::write(int row, int column, std::string_view text, Look look) {
  if (row < 0 || row >= rows() || column < 0 || column >= columns_) return;
  const std::size_t room = size_of(columns_ - column);
  const std::string fitting = width(text) <= room ? std::string(text) : cut(text, room);
  std::size_t at = size_of(column);
  for (std::string& character : characters(fitting)) cells_[size_of(row)][at++] = {std::move(character), look};
}

void Grid::write_right(int row, std::string_view text, Look look) {
  write(row, std::max(0, columns_ - static_cast<int>(width(text))), text, look);
}

void Grid::fill(int row, const std::string& character, Look look) {
  for (int column = 0; column < columns_; ++column) write(row, column, character, look);
}

std::string Grid::text(int row) const {
  std::string all;
  for (const Cell& cell : this->row(row)) all += cell.text;
  return all.substr(0, all.find_last_not_of(' ') + 1);
}

}  // namespace tenth::cli
