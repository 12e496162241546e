#pragma once

#include <span>
#include <string>
#include <string_view>

namespace tenth {

/// The candidate nearest to a mistyped word by edit distance (Levenshtein), or empty where none is near enough to help.
std::string nearest(std::string_view word, std::span<const std::string> candidates);

/// The one candidate that the word names: equal to it, else the only one that begins with it; empty otherwise.
std::string unique_beginning(std::string_view word, std::span<const std::string> candidates);

/// A word from outside for a message: in single quotes, control characters as \xHH, cut where it is very long.
std::string quoted(std::string_view word);
inline std::string quoted(const std::string& word) {
  return quoted(std::string_view(word));
}  // nearer than std::quoted

}  // namespace tenth
