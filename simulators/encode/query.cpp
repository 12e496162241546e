#include <cstdlib>

#include "simulators/encode/digits.hpp"
#include "simulators/encode/encoders.hpp"

namespace tenth::simulators {

Result<std::string> encode_query(const Display& display, std::int64_t count) {
  const std::string sign = count < 0 ? "-" : display.plus ? "+" : "";
  if (display.number == Number::nr1) return sign + padded(std::abs(count), 1);
  return sign + (display.number == Number::nr2 ? fixed(count, display.decimals, '.')
                                               : scientific(count, display.decimals, '.'));
}

}  // namespace tenth::simulators
