#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "simulators/act.hpp"
#include "simulators/gauge.hpp"

namespace tenth::simulators {

struct Scenario {
  std::string title;
  bool stay = false;  ///< wait for a signal after the last act
  int seed = 1;       ///< of all noise
  std::vector<Gauge> gauges;
  std::vector<Act> play;
};

/// A scenario file (format: `simulators/README.md`). Refused as "FILE:LINE:COLUMN: what is wrong: what would be right".
Result<Scenario> parse_scenario(std::string_view text, const std::string& file);

const Gauge* find_gauge(const std::vector<Gauge>& gauges, std::string_view name);

}  // namespace tenth::simulators
