#pragma once

#include <chrono>

namespace tenth::bench {

/// What all threads of this program but the calling one have used.
struct Used {
  std::chrono::nanoseconds cpu{};
  long wakeups = 0;  ///< how often they were given a processor that they had waited for
};
Used used_by_others();

}  // namespace tenth::bench
