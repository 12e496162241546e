#pragma once

#include <string_view>
#include <vector>

#include "cli/bench/lines.hpp"
#include "cli/bench/screen.hpp"

namespace tenth::cli {

/// A screen while it is drawn, from above and from below.
struct Drawing {
  Grid grid;
  const ScreenState& state;
  int scale = 1;   ///< of big letters
  int row = 0;     ///< the next free one from above
  int bottom = 0;  ///< the last free one from below

  std::string ink() const { return state.utf8 ? "█" : "#"; }
  std::string rule() const { return state.utf8 ? "─" : "-"; }
};

/// In big letters between two columns, as wide as they fit (cells are twice as high as wide), in the middle if asked;
/// where they do not fit, in plain ones.
void write_big(Drawing& drawing, std::string_view words, int from, int to, bool centred);

/// As many as there is room for.
void write_lines(Drawing& drawing, const std::vector<Line>& lines);

}  // namespace tenth::cli
