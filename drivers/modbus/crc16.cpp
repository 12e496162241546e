#include "drivers/modbus/crc16.hpp"

namespace tenth::drivers {

std::uint16_t crc16(std::string_view bytes) {
  unsigned crc = 0xFFFF;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = (crc & 1U) != 0 ? crc >> 1U ^ 0xA001U : crc >> 1U;
  }
  return static_cast<std::uint16_t>(crc);
}

}  // namespace tenth::drivers
