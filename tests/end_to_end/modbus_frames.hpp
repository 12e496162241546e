// Modbus answers made from the format's description (Modbus Application Protocol V1.1b3, Modbus over serial line V1.02)
// and from nothing else.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace acceptance {

// Bytes, most significant first.
std::string big_endian(std::uint32_t value, int bytes);
std::string float_bytes(float value);
// The frame with its CRC behind it, low byte first.
std::string with_crc(std::string frame);

// An RTU answer: unit, function, byte count, registers, CRC.
std::string rtu_answer(char unit, char function, std::string_view registers);
// A TCP answer to this request, with its transaction and unit.
std::string tcp_answer(std::string_view request, std::string_view registers);

}  // namespace acceptance
