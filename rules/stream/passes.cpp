#include "rules/stream/passes.hpp"

namespace tenth::stream {

std::vector<Pass> passes_of(std::span<const Sample> samples) {
  std::vector<Pass> passes;
  std::size_t highest = 0, lowest = 0;  // while rising, while falling
  bool falls = false;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const Length value = samples[i].value;
    if (falls) {
      if (value < samples[lowest].value) lowest = i;
      if (value - samples[lowest].value < kRise) continue;
      passes.push_back({highest, lowest, i});
      falls = false;
      highest = i;
    } else {
      if (value > samples[highest].value) highest = i;
      if (!passes.empty()) passes.back().to = highest;
      falls = samples[highest].value - value >= kRise;
      lowest = i;
    }
  }
  return passes;
}

}  // namespace tenth::stream
