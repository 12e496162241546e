#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace tenth {

/// A decimal number taken apart: ± digits × 10^exponent, the digits without zeros at either end ("" is zero).
struct Decimal {
  bool negative = false;
  std::string digits;
  int exponent = 0;
};

/// Sign, digits, a point or comma among them, and an exponent of one or two digits; none where `text` is anything else.
std::optional<Decimal> parse_decimal(std::string_view text);

/// The number × 10^places, where that is whole and has at most 15 digits.
std::optional<std::int64_t> scaled(const Decimal& number, int places);

/// Whole digits with the point set `places` from the right: one digit or more before it, no leading zeros otherwise,
/// a minus where negative (zero is not): decimal(true, "000123", 4) is "-0.0123".
std::string decimal(bool negative, std::string digits, std::size_t places);

/// Takes the digits at the front of `text`.
std::string_view take_digits(std::string_view& text);

/// Takes a sign at the front of `text`; true: a minus.
bool take_sign(std::string_view& text);

}  // namespace tenth
