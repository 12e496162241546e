#pragma once

#include "cli/context.hpp"
#include "rules/spec.hpp"

namespace tenth::cli {

/// Remedies in the order to think about them: what to do, what comes of it, cautions; then what has none and why.
void show_remedies(Context& context, const Json& list, Unit spec_unit);

/// A clearance as it is and as it would be.
/// A ring's gap now and in another bore, against its limits.
void show_moved_ring(Context& context, const Json& both, const Feature& feature, Unit spec_unit);
void show_what_if(Context& context, const Json& both, Unit spec_unit);

}  // namespace tenth::cli
