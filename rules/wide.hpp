#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>

namespace tenth {

/// For sums and products of picometres that need more than 64 bits.
__extension__ using Wide = __int128;

/// Cut off at the ends of 64 bits.
constexpr std::int64_t narrowed(Wide value) {
  using Ends = std::numeric_limits<std::int64_t>;
  return static_cast<std::int64_t>(std::clamp<Wide>(value, Ends::min(), Ends::max()));
}

}  // namespace tenth
