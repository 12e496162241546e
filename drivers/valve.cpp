#include "drivers/valve.hpp"

#include <limits>

namespace tenth::drivers {

bool Valve::admit(const Fault& fault, std::int64_t now_ns) {
  auto [found, fresh] = minutes_.try_emplace(fault.why, Minute{now_ns, 0, Held{fault.why}});
  Minute& minute = found->second;
  if (!fresh && minute.held.count == 0 && now_ns - minute.began_ns >= kMinute_ns) {
    minute = Minute{now_ns, 0, Held{fault.why}};
  }
  if (minute.told < kMost) {
    ++minute.told;
    return true;
  }
  ++minute.held.count;
  minute.held.bytes += fault.bytes;
  return false;
}

std::vector<Held> Valve::release(std::int64_t now_ns) {
  std::vector<Held> over;
  std::erase_if(minutes_, [&](const auto& entry) {
    const Minute& minute = entry.second;
    if (now_ns - minute.began_ns < kMinute_ns) return false;
    if (minute.held.count > 0) over.push_back(minute.held);
    return true;
  });
  return over;
}

std::vector<Held> Valve::release_all() {
  return release(std::numeric_limits<std::int64_t>::max());
}

}  // namespace tenth::drivers
