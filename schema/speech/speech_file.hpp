#pragma once

#include <string>
#include <string_view>

#include "rules/result.hpp"
#include "schema/speech/speech.hpp"

namespace tenth {

/// Reads the whole text of a file of speech (schema/speech.md). An error names `file`, line, column and what would be
/// right (exit status 4, code `speech`); nothing is half-loaded.
Result<Speech> parse_speech(std::string_view text, const std::string& file);

}  // namespace tenth
