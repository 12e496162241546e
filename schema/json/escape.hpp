#pragma once

#include <string>
#include <string_view>

namespace tenth {

/// Bytes of a frame for the record and the screen: outside 0x20-0x7E, and the backslash, as \xHH (upper case).
std::string escape_bytes(std::string_view bytes);

/// A name or note for a terminal: control characters (C0, DEL, C1) and stray bytes that are not UTF-8 as \xHH,
/// everything else as it is.
std::string printable(std::string_view text);

/// UTF-8 kept; each byte that is not UTF-8 replaced by U+FFFD, so that the text can stand in JSON.
std::string valid_utf8(std::string_view text);

}  // namespace tenth
