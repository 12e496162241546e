#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// The bench at a glance: one line each for what is in use and for every gauge.
void show_status(Context& context, const Json& status);

}  // namespace tenth::cli
