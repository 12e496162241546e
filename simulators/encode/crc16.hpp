#pragma once

#include <cstdint>
#include <string_view>

namespace tenth::simulators {

/// CRC-16/MODBUS: polynomial 0x8005 reflected, begins with 0xFFFF (Modbus over Serial Line V1.02, 6.2.2).
std::uint16_t crc16(std::string_view bytes);

}  // namespace tenth::simulators
