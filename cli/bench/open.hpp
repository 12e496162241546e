#pragma once

#include <string>
#include <vector>

#include "cli/bench/lines.hpp"

namespace tenth::cli {

// What is still open: parts that are away (^), what must be fitted first (#), readings that no check of their gauge
// confirms (~), figures that are somebody else's (").

/// The parts of this feature of the plan are away.
bool is_away(const Json& bench, const Json& feature);
/// All of it in short: "^ away: crankpin  # set up: bore  ~ unconfirmed: dial  " claimed: main journal"; or nothing.
std::string open_words(const Json& bench);
/// Each in a line of its own, with what to do about it.
std::vector<Line> open_lines(const Json& bench);
/// What stands between this place and a reading that counts: "# SET UP FIRST: torque plates fitted"; or nothing.
std::string open_at(const Json& bench, const Json& place);

}  // namespace tenth::cli
