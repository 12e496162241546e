#include "cli/speak/language.hpp"

#include "cli/files.hpp"

namespace tenth::cli {
namespace {

constexpr std::size_t kMostBytes = 1024 * 1024;

/// The language that the session's locale asks for, if it comes with Tenth; else English.
std::string session_language(const World& world) {
  for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
    const std::string locale = world.variable(name);
    if (locale.empty()) continue;
    for (const std::string& language : languages())
      if (locale.starts_with(language + "_") || locale == language) return language;
    break;
  }
  return "en";
}

}  // namespace

std::vector<std::string> languages() {
  std::vector<std::string> all;
  for (const ShippedSpeech& each : shipped_speech()) all.emplace_back(each.language);
  return all;
}

std::string_view language_text(const std::string& language) {
  for (const ShippedSpeech& each : shipped_speech())
    if (each.language == language) return each.text;
  return shipped_speech().front().text;
}

Result<Speech> find_speech(const std::string& file, const std::string& language, const World& world) {
  if (file.empty()) {
    const std::string found = language.empty() ? session_language(world) : language;
    return parse_speech(language_text(found), found);
  }
  TENTH_TRY(const std::string text, read_text(file, kMostBytes));
  return parse_speech(text, file);
}

}  // namespace tenth::cli
