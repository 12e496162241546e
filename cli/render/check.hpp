#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// A report on 80 columns: a line for every index of a feature and fit, every spread and check, then the whole.
void show_check(Context& context, const Json& report);

/// What can be done now, a line each.
void show_ready(Context& context, const Json& ready);

}  // namespace tenth::cli
