#pragma once

#include <cstdint>
#include <vector>

#include "simulators/amount.hpp"

namespace tenth::simulators {

enum class Table { input, holding };
enum class RegisterType { float32, int16, uint16, int32, uint32 };

/// The order of a number's bytes on the wire, A the most significant. Of a 16-bit number the last two letters count.
enum class ByteOrder { abcd, cdab, badc, dcba };

/// Where and how a Modbus device keeps what its gauge shows.
struct RegisterMap {
  int unit_id = 1;
  Table table = Table::input;
  int address = 0;  ///< of the first register, from 0 as on the wire
  RegisterType type = RegisterType::float32;
  ByteOrder order = ByteOrder::abcd;
};

/// The registers, one or two, of `count` units of the last decimal: an integer is the count itself, a float the number.
/// Refused where the type cannot hold it.
Result<std::vector<std::uint16_t>> registers(const RegisterMap& map, std::int64_t count, int decimals);

/// How many registers the type takes.
int width(RegisterType type);

}  // namespace tenth::simulators
