#pragma once

#include "cli/audit_run.hpp"
#include "cli/context.hpp"

namespace tenth::cli {

/// ok, entries, head, first_bad, why, cannot_tell.
Json audit_json(const Audit& audit);
void show_audit(Context& context, const Audit& audit);

}  // namespace tenth::cli
