#pragma once

#include "drivers/frame_decoder.hpp"

namespace tenth::drivers {

/// A 24-bit number as 6 hexadecimal characters (format: `drivers/bin24/README.md`).
Parsed parse_bin24(std::string_view frame);
Format bin24_format();

}  // namespace tenth::drivers
