#include "simulators/encode/digits.hpp"

#include <cstdlib>

namespace tenth::simulators {

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

std::string fixed(std::int64_t count, int decimals, char point) {
  const auto places = static_cast<std::size_t>(decimals);
  std::string text = padded(std::abs(count), places + 1);
  if (places > 0) text.insert(text.size() - places, 1, point);
  return text;
}

std::string scientific(std::int64_t count, int decimals, char point) {
  const std::string digits = std::to_string(std::abs(count));
  const int power = count == 0 ? 0 : static_cast<int>(digits.size()) - 1 - decimals;
  const std::string rest = digits.size() > 1 ? digits.substr(1) : "0";
  return digits.substr(0, 1) + point + rest + (power < 0 ? "E-" : "E+") + padded(std::abs(power), 2);
}

std::string too_few_digits(const std::string& format) {
  return "the value is too large for the digits of a " + format + " frame";
}

}  // namespace tenth::simulators
