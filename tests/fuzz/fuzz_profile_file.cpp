// Any text as a profile file; where it is one, its own text as what its gauge sends.
#include "drivers/keys/key_map.hpp"
#include "tests/fuzz/decode.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text.push_back(static_cast<char>(data[i]));
  const auto profile = tenth::parse_profile(text, "fuzz.toml");
  if (!profile) {
    tenth::fuzz::expect(profile.error().code == "profile" && !profile.error().message.empty() &&
                        !profile.error().remedy.empty());
    return 0;
  }
  (void)tenth::drivers::KeyMap::make(profile->key_map);
  if (profile->speaks == tenth::Speaks::pedal) return 0;
  const auto decoder = tenth::drivers::make_decoder(*profile, tenth::Unit::mm, tenth::drivers::Wire::serial);
  for (const auto& events : {decoder->feed(tenth::fuzz::received(data, size)), decoder->silence(), decoder->finish()})
    for (const auto& event : events) {
      const auto* const read = std::get_if<tenth::drivers::Measurement>(&event);
      tenth::fuzz::expect(read == nullptr || read->value.magnitude() <= tenth::kLongest);
    }
  return 0;
}
