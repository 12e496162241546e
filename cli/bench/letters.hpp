#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tenth::cli {

inline constexpr int kLetterRows = 5;

/// A text in big letters, drawn by us: rows of blanks and `#`, a column between the letters. Small letters are drawn as
/// capitals. Empty where a character is none that we draw.
std::vector<std::string> big_letters(std::string_view text);

}  // namespace tenth::cli
