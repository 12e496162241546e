#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// The terms behind the uncertainty of one clearance, and what would decide it where it is doubtful.
void show_budget(Context& context, const Json& budget);

}  // namespace tenth::cli
