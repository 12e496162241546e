// Every shipped profile: the first byte says which.
#include "tests/fuzz/decode.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto all = tenth::drivers::shipped_profiles();
  const tenth::Profile profile = tenth::fuzz::shipped(all[data[0] % all.size()].name);
  if (profile.speaks != tenth::Speaks::pedal)
    tenth::fuzz::decode(profile, tenth::drivers::Wire::serial, data + 1, size - 1);
  return 0;
}
