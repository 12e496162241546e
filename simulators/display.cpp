#include "simulators/display.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace tenth::simulators {

namespace {

/// One unit of the last decimal, in millionths.
std::int64_t last_decimal(int decimals) {
  std::int64_t step = 1'000'000;
  for (int i = 0; i < decimals; ++i) step /= 10;
  return step;
}

std::string padded(std::int64_t number, std::size_t digits) {
  std::string text = std::to_string(number);
  if (text.size() < digits) text.insert(0, digits - text.size(), '0');
  return text;
}

std::string too_few_digits(const char* format) {
  return std::string("the value is too large for the digits of a ") + format + " frame";
}

Result<std::string> line(const Display& display, std::int64_t count) {
  const auto decimals = static_cast<std::size_t>(display.decimals);
  std::string text = padded(std::abs(count), decimals + 1);
  if (text.size() - decimals > 4) return tl::unexpected(too_few_digits("line"));
  if (decimals > 0) text.insert(text.size() - decimals, 1, display.point);
  if (count < 0 || display.plus) text.insert(0, 1, count < 0 ? '-' : '+');
  if (display.names_unit) text += display.unit == Unit::mm ? " mm" : " in";
  return text;
}

/// Thirteen digits: four F, the sign (0, minus 8), six decimals, the number of decimals, the unit (0 mm, 1 in).
Result<std::string> bcd13(const Display& display, std::int64_t count) {
  const std::string digits = padded(std::abs(count), 6);
  if (digits.size() > 6) return tl::unexpected(too_few_digits("bcd13"));
  return "FFFF" + std::string(count < 0 ? "8" : "0") + digits + std::to_string(display.decimals) +
         (display.unit == Unit::mm ? "0" : "1");
}

/// Six hexadecimal digits: bits 0-19 the number of steps, bit 20 the sign (1 minus), bit 23 the unit (1 in).
Result<std::string> bin24(const Display& display, std::int64_t count) {
  constexpr std::int64_t kMost = (1 << 20) - 1;
  if (std::abs(count) > kMost) return tl::unexpected(too_few_digits("bin24"));
  std::uint32_t bits = static_cast<std::uint32_t>(std::abs(count));
  if (count < 0) bits |= 1U << 20;
  if (display.unit == Unit::in) bits |= 1U << 23;
  std::string hex;
  for (int shift = 20; shift >= 0; shift -= 4) hex += "0123456789ABCDEF"[(bits >> shift) & 0xF];
  return hex;
}

Result<std::string> body(const Display& display, Amount amount, Unit unit) {
  if (display.speaks == Speaks::bin24) {
    const std::int64_t step = display.unit == Unit::mm ? 10'000 : 500;  // 0.01 mm, 0.0005 in
    return bin24(display, steps(amount, unit, display.unit, step));
  }
  const std::int64_t count = steps(amount, unit, display.unit, last_decimal(display.decimals));
  return display.speaks == Speaks::line ? line(display, count) : bcd13(display, count);
}

}  // namespace

Result<std::string> frame(const Display& display, Amount amount, Unit unit) {
  auto sent = body(display, amount, unit);
  if (sent) *sent += display.end;
  return sent;
}

Display switched(Display display, Unit unit) {
  if (display.unit == unit) return display;
  const int most = display.speaks == Speaks::bcd13 ? 5 : 6;
  display.decimals = std::clamp(display.decimals + (unit == Unit::in ? 1 : -1), 0, most);
  display.unit = unit;
  return display;
}

}  // namespace tenth::simulators
