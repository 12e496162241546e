#pragma once

#include "cli/context.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {

void show_gauge(Context& context, const Json& gauge);
void show_gauges(Context& context, const Json& gauges);

/// "+ open", "! gone", … of a gauge.
std::string gauge_mark(const Ink& ink, const Json& gauge);
/// "set on 83.0000 mm 4 min ago", "not set".
/// What it was set on: "83.0000 mm (R83)", "82.9500 mm in mic".
std::string master_text(const Json& set, Unit unit);
std::string setting_text(const Json& gauge, Unit unit);

}  // namespace tenth::cli
