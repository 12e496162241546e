#include "cli/bench/drawing.hpp"

#include <algorithm>

#include "cli/bench/letters.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

/// Each row of the letters so often, each column so often.
std::vector<std::string> scaled(const std::vector<std::string>& rows, int high, int wide) {
  std::vector<std::string> all;
  for (const std::string& row : rows) {
    std::string drawn;
    for (const char c : row) drawn.append(static_cast<std::size_t>(wide), c);
    all.insert(all.end(), static_cast<std::size_t>(high), drawn);
  }
  return all;
}

}  // namespace

void write_big(Drawing& drawing, std::string_view words, int from, int to, bool centred) {
  const auto letters = big_letters(words);
  const int high = kLetterRows * drawing.scale, room = to - from;
  const int wide =
      letters.empty() ? 0 : std::min(2 * drawing.scale, room / std::max(1, static_cast<int>(letters.front().size())));
  const int columns = wide == 0 ? static_cast<int>(width(words)) : static_cast<int>(letters.front().size()) * wide;
  const int column = from + (centred ? std::max(0, (room - columns) / 2) : 0);
  int row = drawing.row;
  if (wide == 0) drawing.grid.write(row + high / 2, column, words, Look::strong);
  for (const std::string& line : scaled(letters, drawing.scale, wide)) {
    for (std::size_t at = 0; at < line.size(); ++at)
      if (line[at] == '#') drawing.grid.write(row, column + static_cast<int>(at), drawing.ink(), Look::strong);
    ++row;
  }
  drawing.row += high;
}

void write_lines(Drawing& drawing, const std::vector<Line>& lines) {
  for (const Line& line : lines)
    if (drawing.row <= drawing.bottom) drawing.grid.write(drawing.row++, 0, line.text, line.look);
}

}  // namespace tenth::cli
