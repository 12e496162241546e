#include "rules/decimal.hpp"

#include <algorithm>

namespace tenth {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

void strip_zeros(Decimal& number) {
  number.digits.erase(0, std::min(number.digits.find_first_not_of('0'), number.digits.size()));
  while (number.digits.ends_with('0')) {
    number.digits.pop_back();
    ++number.exponent;
  }
}

}  // namespace

std::string_view take_digits(std::string_view& text) {
  const auto end = std::find_if_not(text.begin(), text.end(), is_digit);
  const auto digits = text.substr(0, static_cast<std::size_t>(end - text.begin()));
  text.remove_prefix(digits.size());
  return digits;
}

bool take_sign(std::string_view& text) {
  const bool minus = text.starts_with('-');
  if (minus || text.starts_with('+')) text.remove_prefix(1);
  return minus;
}

std::optional<Decimal> parse_decimal(std::string_view text) {
  Decimal number;
  number.negative = take_sign(text);
  number.digits = take_digits(text);
  if (text.starts_with('.') || text.starts_with(',')) {
    text.remove_prefix(1);
    const auto places = take_digits(text);
    number.digits += places;
    number.exponent = -static_cast<int>(places.size());
  }
  if (number.digits.empty()) return std::nullopt;
  if (text.starts_with('e') || text.starts_with('E')) {
    text.remove_prefix(1);
    const bool minus = take_sign(text);
    const auto power = take_digits(text);
    if (power.empty() || power.size() > 2) return std::nullopt;
    const int shift = std::stoi(std::string(power));
    number.exponent += minus ? -shift : shift;
  }
  if (!text.empty()) return std::nullopt;
  strip_zeros(number);
  return number;
}

std::optional<std::int64_t> scaled(const Decimal& number, int places) {
  constexpr int kMostDigits = 15;
  const int power = number.exponent + places;
  const auto size = static_cast<int>(number.digits.size());
  if (size == 0) return 0;
  if (power < 0 || size + power > kMostDigits) return std::nullopt;
  const std::int64_t value = std::stoll(number.digits + std::string(static_cast<std::size_t>(power), '0'));
  return number.negative ? -value : value;
}

std::string decimal(bool negative, std::string digits, std::size_t places) {
  digits.erase(0, digits.find_first_not_of('0'));
  const bool zero = digits.empty();
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - places, ".");
  return negative && !zero ? "-" + digits : digits;
}

}  // namespace tenth
