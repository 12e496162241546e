#include "drivers/modbus/register_value.hpp"

#include <bit>
#include <boost/multiprecision/cpp_int.hpp>
#include <cmath>

#include "rules/decimal.hpp"

namespace tenth::drivers {

namespace {

using Integer = boost::multiprecision::cpp_int;
using Type = ModbusForm::Type;
using Order = ModbusForm::Order;

/// The bytes with the most significant first. Registers hold theirs so; a gauge may swap the bytes of a register, the
/// registers, or both.
std::uint32_t bits_of(std::string bytes, Order order) {
  if (order == Order::BADC || order == Order::DCBA)
    for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) std::swap(bytes[i], bytes[i + 1]);
  if ((order == Order::CDAB || order == Order::DCBA) && bytes.size() == 4) bytes = bytes.substr(2) + bytes.substr(0, 2);
  std::uint32_t bits = 0;
  for (const char c : bytes) bits = bits << 8U | static_cast<unsigned char>(c);
  return bits;
}

/// A float is a whole number of 2^-149: exactly `mantissa` × 2^`power`.
tl::expected<std::string, Wrong> rounded(float value, int decimals) {
  if (!std::isfinite(value)) return bad_frame("the register holds no number");
  int power = 0;
  const auto mantissa = static_cast<std::int64_t>(std::ldexp(std::frexp(std::fabs(value), &power), 24));
  power -= 24;
  Integer above = Integer(mantissa) * boost::multiprecision::pow(Integer(10), static_cast<unsigned>(decimals)),
          below = 1;
  (power < 0 ? below : above) <<= static_cast<unsigned>(std::abs(power));
  const Integer whole = (2 * above + below) / (2 * below);
  return decimal(value < 0, whole.str(), static_cast<std::size_t>(decimals));
}

}  // namespace

std::size_t registers(const ModbusForm& form) {
  return form.type == Type::int16 || form.type == Type::uint16 ? 1 : 2;
}

tl::expected<std::string, Wrong> register_number(const ModbusForm& form, std::string_view bytes) {
  const std::uint32_t bits = bits_of(std::string(bytes), form.order);
  switch (form.type) {
    case Type::int16:
      return std::to_string(static_cast<std::int16_t>(static_cast<std::uint16_t>(bits)));
    case Type::int32:
      return std::to_string(static_cast<std::int32_t>(bits));
    case Type::uint16:
    case Type::uint32:
      return std::to_string(bits);
    case Type::float32:
      return rounded(std::bit_cast<float>(bits), form.decimals);
  }
  return bad_frame("no type");
}

}  // namespace tenth::drivers
