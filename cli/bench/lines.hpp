#pragma once

#include <string>
#include <vector>

#include "cli/bench/grid.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

// The lines of the bench screen in words, each made from the daemon's answer to `bench`.

struct Line {
  std::string text;
  Look look = Look::plain;
};

/// "J18  Straight six  as found  ann"
std::string header_line(const Json& bench);

/// The place that is shown big: that of the gauge read last if it has one of its own, else the common one, else any.
/// Null: none is chosen.
const Json& place_in_view(const Json& bench);
/// "bore 3", and "top thrust".
std::string part_words(const Json& place);
std::string spot_words(const Json& place);

/// "+ in, two tenths under the upper limit": what became of the last reading.
Line verdict_line(const Json& last);
/// "next  bore 3 top pin   13 of 36 done"; how to keep the last reading, where that is suspect.
Line next_line(const Json& bench);
/// "2 alerts  1 suspect  ", or nothing.
std::string counts_words(const Json& bench);
/// The places that are not shown big, one a line: "mic: main journal 2   3 of 14 done".
std::vector<Line> other_places(const Json& bench);
/// What somebody has to see, the worst first: alerts to stop for, gauges to be set or checked, other alerts, suspect
/// readings.
std::vector<Line> warnings(const Json& bench);
/// "+ bg open, set 4 min ago   ! mic gone: unplugged"
Line gauges_line(const Json& bench);
/// "bore  1 +  2 !~  3 >  4 .": a feature of the plan, each index with its state, and whether a check has yet to
/// confirm it; "crankpin  1 ^  2 ^" where its parts are away.
std::string plan_line(const Json& feature, const Json& place, bool away);

}  // namespace tenth::cli
