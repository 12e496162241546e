// Key events, three bytes each: two of the key's code, one of what happened to it.
#include "drivers/keys/key_map.hpp"
#include "tests/fuzz/decode.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  auto map = tenth::drivers::KeyMap::make({{"KEY_COMMA", "."}}).value();
  for (std::size_t i = 0; i + 2 < size; i += 3) {
    const auto typed = map.take(static_cast<std::uint16_t>(data[i] << 8U | data[i + 1]), data[i + 2] % 4 - 1);
    tenth::fuzz::expect(
        !typed || (data[i + 2] % 4 == 2 && (*typed == '\n' || *typed == '\t' || (*typed >= ' ' && *typed <= '~'))));
  }
  return 0;
}
