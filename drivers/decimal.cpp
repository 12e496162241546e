#include "drivers/decimal.hpp"

namespace tenth::drivers {

std::string decimal(bool negative, std::string digits, std::size_t places) {
  digits.erase(0, digits.find_first_not_of('0'));
  const bool zero = digits.empty();
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - places, ".");
  return negative && !zero ? "-" + digits : digits;
}

}  // namespace tenth::drivers
