#pragma once

#include <cstdint>
#include <string>

#include "simulators/display.hpp"

namespace tenth::simulators {

// One encoder a format, each in its file: the frame without its end of a display that shows `count` of its steps.
// Refused where the format has too few digits.

/// Channel, number, unit, suffix, status: what of these the display has.
Result<std::string> encode_line(const Display& display, std::int64_t count);

/// One number as IEEE 488.2 describes it: NR1 (the count itself, a whole number), NR2 (a point), NR3 (an exponent).
Result<std::string> encode_query(const Display& display, std::int64_t count);

/// Thirteen digits: four F, the sign (0, minus 8), six decimals, the number of decimals, the unit (0 mm, 1 in).
Result<std::string> encode_bcd13(const Display& display, std::int64_t count);

/// Six hexadecimal digits: bits 0-19 the number of steps, bit 20 the sign (1 minus), bit 23 the unit (1 in).
Result<std::string> encode_bin24(const Display& display, std::int64_t count);

}  // namespace tenth::simulators
