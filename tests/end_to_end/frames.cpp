#include "tests/end_to_end/frames.hpp"

#include <cstdlib>

namespace acceptance {

std::string line(std::string_view number) {
  return std::string(number) + "\r";
}

std::string bcd13(std::string_view number, Unit unit) {
  const bool minus = number.starts_with('-');
  std::string digits;
  std::size_t decimals = 0;
  bool after_point = false;
  for (const char c : number.substr(minus ? 1 : 0)) {
    if (c == '.') {
      after_point = true;
    } else {
      digits += c;
      decimals += after_point ? 1 : 0;
    }
  }
  digits.insert(0, 6 - digits.size(), '0');
  return std::string("FFFF") + (minus ? '8' : '0') + digits + std::to_string(decimals) +
         (unit == Unit::inch ? "1" : "0") + "\r";
}

std::string bin24(int steps, Unit unit) {
  unsigned bits = static_cast<unsigned>(std::abs(steps));
  if (steps < 0) bits |= 1U << 20U;
  if (unit == Unit::inch) bits |= 1U << 23U;
  std::string digits;
  for (int shift = 20; shift >= 0; shift -= 4)
    digits += "0123456789ABCDEF"[(bits >> static_cast<unsigned>(shift)) & 15U];
  return digits + "\r";
}

}  // namespace acceptance
