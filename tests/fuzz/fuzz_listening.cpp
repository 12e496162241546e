// Bursts, parted by FF, of a gauge that nobody knows.
#include "drivers/listening.hpp"
#include "tests/fuzz/decode.hpp"

namespace {

std::vector<tenth::drivers::Tried> all_shipped() {
  std::vector<tenth::drivers::Tried> all;
  for (const auto& each : tenth::drivers::shipped_profiles())
    all.push_back({std::string(each.name), tenth::fuzz::shipped(each.name)});
  return all;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const auto tried = all_shipped();
  tenth::drivers::Listening listening(tried);
  std::vector<tenth::drivers::Received> burst;
  for (const auto received : tenth::fuzz::received(data, size)) {
    if (received.byte != 0xFF) {
      burst.push_back(received);
      continue;
    }
    if (listening.done()) break;
    listening.take(burst);
    burst.clear();
  }
  for (const auto& candidate : listening.candidates()) tenth::fuzz::expect(!candidate.numbers.empty());
  return 0;
}
