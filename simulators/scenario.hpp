#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "simulators/act.hpp"
#include "simulators/display.hpp"

namespace tenth::simulators {

/// One simulated gauge. It shows value + offset, or with a zero value − zero + offset.
struct Gauge {
  std::string name, path;
  Display display;
  std::optional<Amount> zero;  ///< the size at which a gauge for deviations shows nothing
  Amount offset;               ///< the error of its zero
  std::vector<Amount> values;  ///< shown by presses without a value, one after another
};

struct Scenario {
  std::string title;
  bool stay = false;  ///< wait for a signal after the last act
  std::vector<Gauge> gauges;
  std::vector<Act> play;
};

/// A scenario file (format: `simulators/README.md`). Refused as "FILE:LINE:COLUMN: what is wrong: what would be right".
Result<Scenario> parse_scenario(std::string_view text, const std::string& file);

const Gauge* find_gauge(const Scenario& scenario, std::string_view name);

}  // namespace tenth::simulators
