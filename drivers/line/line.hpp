#pragma once

#include "drivers/frame_decoder.hpp"

namespace tenth::drivers {

/// A line of text with one decimal number (format: `drivers/line/README.md`). `unit` is that of a frame that names
/// none.
Parsed parse_line(std::string_view frame, std::optional<Unit> unit);
Format line_format();

}  // namespace tenth::drivers
