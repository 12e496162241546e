#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/world.hpp"
#include "schema/speech/speech_file.hpp"

namespace tenth::cli {

/// The languages that come with Tenth.
std::vector<std::string> languages();
/// The file of one of them, as text.
std::string_view language_text(const std::string& language);

/// The caller's file where there is one, else this language, else that of the session's locale if it comes with Tenth,
/// else English. Refused (4): the file cannot be read or has errors.
Result<Speech> find_speech(const std::string& file, const std::string& language, const World& world);

}  // namespace tenth::cli
