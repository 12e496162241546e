#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// The master checks of a gauge as a picture of characters, the signs that chance does not explain, and its drift.
void show_charts(Context& context, const Json& charts);

}  // namespace tenth::cli
