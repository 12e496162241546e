#include "tests/fuzz/decode.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  tenth::fuzz::decode("line", data, size);
  return 0;
}
