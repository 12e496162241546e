#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// The place that was chosen, and the gauges whose waiting for a master that ended.
void show_place(Context& context, const Json& place);

}  // namespace tenth::cli
