#include <cstdlib>

#include "simulators/encode/digits.hpp"
#include "simulators/encode/encoders.hpp"

namespace tenth::simulators {

Result<std::string> encode_bcd13(const Display& display, std::int64_t count) {
  const std::string digits = padded(std::abs(count), 6);
  if (digits.size() > 6) return tl::unexpected(too_few_digits("bcd13"));
  return "FFFF" + std::string(count < 0 ? "8" : "0") + digits + std::to_string(display.decimals) +
         (display.unit == Unit::mm ? "0" : "1");
}

}  // namespace tenth::simulators
