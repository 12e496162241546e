#include "simulators/encode/crc16.hpp"

namespace tenth::simulators {

std::uint16_t crc16(std::string_view bytes) {
  std::uint32_t crc = 0xFFFF;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = (crc & 1U) != 0 ? (crc >> 1) ^ 0xA001U : crc >> 1;
  }
  return static_cast<std::uint16_t>(crc);
}

}  // namespace tenth::simulators
