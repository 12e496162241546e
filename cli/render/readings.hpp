#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// A table: number, state, place, size, and what speaks against it.
void show_readings(Context& context, const Json& readings);

}  // namespace tenth::cli
