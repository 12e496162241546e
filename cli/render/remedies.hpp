#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

/// Remedies in the order to think about them: what to do, what comes of it, cautions; then what has none and why.
void show_remedies(Context& context, const Json& list, Unit spec_unit);

/// A clearance as it is and as it would be.
void show_what_if(Context& context, const Json& both, Unit spec_unit);

}  // namespace tenth::cli
