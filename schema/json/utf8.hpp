#pragma once

#include <cstddef>
#include <string_view>

namespace tenth {

/// The length in bytes of the well-formed UTF-8 character that `text` begins with; 0 where there is none
/// (the Unicode standard, table 3-7: no overlong forms, no surrogates, nothing past U+10FFFF).
std::size_t utf8_character(std::string_view text);

}  // namespace tenth
