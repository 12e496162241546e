#pragma once

#include <vector>

#include "simulators/fields.hpp"
#include "simulators/gauge.hpp"

namespace tenth::simulators {

/// One [[gauge]] of a scenario; `others` stand above it.
Result<Gauge> read_gauge(const std::string& file, const toml::table& table, const std::vector<Gauge>& others);

/// What it speaks, with the keys of that format.
void read_format(Fields& fields, Gauge& gauge);

}  // namespace tenth::simulators
