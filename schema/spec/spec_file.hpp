#pragma once

#include <string>
#include <string_view>

#include "rules/spec.hpp"

namespace tenth {

/// A spec file (format: `schema/spec.md`) as a Spec. Refused (4, code `spec`) as "FILE:LINE:COLUMN: what is wrong",
/// with what would be right: unknown keys, impossible limits, unknown names. Nothing is half-loaded.
Result<Spec> parse_spec(std::string_view text, const std::string& file);

}  // namespace tenth
