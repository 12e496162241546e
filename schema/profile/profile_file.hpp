#pragma once

#include <string>
#include <string_view>

#include "rules/result.hpp"
#include "schema/profile/profile.hpp"

namespace tenth {

/// Reads the whole text of a profile file (schema/profile.md). An error names `file`, line, column and what would be
/// right (exit status 4, code `profile`); nothing is half-loaded.
Result<Profile> parse_profile(std::string_view text, const std::string& file);

}  // namespace tenth
