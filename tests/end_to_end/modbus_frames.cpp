#include "tests/end_to_end/modbus_frames.hpp"

#include <bit>

namespace acceptance {

std::string big_endian(std::uint32_t value, int bytes) {
  std::string text;
  for (int k = bytes - 1; k >= 0; --k) text += static_cast<char>((value >> static_cast<unsigned>(8 * k)) & 0xFFU);
  return text;
}

std::string float_bytes(float value) {
  return big_endian(std::bit_cast<std::uint32_t>(value), 4);
}

std::string with_crc(std::string frame) {
  unsigned crc = 0xFFFFU;
  for (const char c : frame) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = (crc & 1U) != 0 ? (crc >> 1U) ^ 0xA001U : crc >> 1U;
  }
  frame += static_cast<char>(crc & 0xFFU);
  frame += static_cast<char>(crc >> 8U);
  return frame;
}

std::string rtu_answer(char unit, char function, std::string_view registers) {
  return with_crc(std::string{unit, function, static_cast<char>(registers.size())} + std::string(registers));
}

std::string tcp_answer(std::string_view request, std::string_view registers) {
  const auto count = static_cast<std::uint32_t>(registers.size());
  return std::string(request.substr(0, 2)) + big_endian(0, 2) + big_endian(count + 3, 2) +
         std::string(request.substr(6, 2)) + static_cast<char>(count) + std::string(registers);
}

}  // namespace acceptance
