#pragma once

#include "drivers/frame_decoder.hpp"

namespace tenth::drivers {

/// 13 decimal digits, each as one hexadecimal character (format: `drivers/bcd13/README.md`).
Parsed parse_bcd13(std::string_view frame);
Format bcd13_format();

}  // namespace tenth::drivers
