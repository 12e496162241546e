#include "daemon/live_gauge.hpp"

#include <algorithm>

namespace tenth {

const LiveValue* LiveGauge::now_shown(std::int64_t now_ns) const {
  const std::int64_t oldest_ns = std::max<std::int64_t>(1000, 3 * every_ms) * 1'000'000;
  if (faulty || shown.empty() || now_ns - shown.back().at.mono_ns > oldest_ns) return nullptr;
  return &shown.back();
}

}  // namespace tenth
