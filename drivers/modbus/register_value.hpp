#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "drivers/frame_decoder.hpp"

namespace tenth::drivers {

/// How many 16-bit registers the value takes: 1 or 2.
std::size_t registers(const ModbusForm& form);

/// The decimal number that 2 or 4 bytes of registers stand for. A float's exact binary value is rounded half away from
/// zero to the profile's decimals; infinity or no number is `bad_frame`.
tl::expected<std::string, Wrong> register_number(const ModbusForm& form, std::string_view bytes);

}  // namespace tenth::drivers
