#pragma once

#include <cstdint>
#include <string_view>

namespace tenth::drivers {

/// The checksum of Modbus over Serial Line V1.02, 6.2.2: polynomial A001 (reflected), begins with FFFF; the low byte
/// goes over the wire first.
std::uint16_t crc16(std::string_view bytes);

}  // namespace tenth::drivers
