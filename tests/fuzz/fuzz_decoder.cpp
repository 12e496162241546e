// One decoder: the profile and the wire are the target's (CMakeLists.txt).
#include "tests/fuzz/decode.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const tenth::Profile profile = tenth::fuzz::shipped(TENTH_FUZZ_PROFILE);
  tenth::fuzz::decode(profile, tenth::drivers::Wire::TENTH_FUZZ_WIRE, data, size);
  return 0;
}
