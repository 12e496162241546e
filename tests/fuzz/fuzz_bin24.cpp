#include "tests/fuzz/decode.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  tenth::fuzz::decode("bin24", data, size);
  return 0;
}
