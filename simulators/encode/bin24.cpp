#include <cstdlib>

#include "simulators/encode/digits.hpp"
#include "simulators/encode/encoders.hpp"

namespace tenth::simulators {

Result<std::string> encode_bin24(const Display& display, std::int64_t count) {
  constexpr std::int64_t kMost = (1 << 20) - 1;
  if (std::abs(count) > kMost) return tl::unexpected(too_few_digits("bin24"));
  std::uint32_t bits = static_cast<std::uint32_t>(std::abs(count));
  if (count < 0) bits |= 1U << 20;
  if (display.unit == Unit::in) bits |= 1U << 23;
  std::string hex;
  for (int shift = 20; shift >= 0; shift -= 4) hex += "0123456789ABCDEF"[(bits >> shift) & 0xF];
  return hex;
}

}  // namespace tenth::simulators
