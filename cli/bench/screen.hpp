#pragma once

#include <optional>
#include <string>

#include "cli/bench/grid.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// What a bench screen is drawn from besides the daemon's answer to `bench`.
struct ScreenState {
  int rows = 24, columns = 80;
  bool utf8 = true;                     ///< else ASCII alone
  std::optional<std::int64_t> stale_s;  ///< so long ago the answer came, and no other since
  std::string message;                  ///< what came of the last key, instead of the help
};

/// The bench as a grid: the place in big letters, the last size in big figures between its limits, what comes next and
/// what is wrong. A terminal that is less than 80 x 24 gets the same in plain lines.
Grid draw_bench(const Json& bench, const ScreenState& state);

/// The gauge whose place is shown big; null: the common place. Keys act for it.
Json gauge_in_view(const Json& bench);

}  // namespace tenth::cli
