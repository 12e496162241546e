#pragma once

#include <memory>
#include <optional>
#include <string>

#include "drivers/catalog.hpp"
#include "schema/profile/profile_file.hpp"

namespace tenth::drivers {

inline Profile shipped(const std::string& name) {
  return parse_profile(find_shipped(name)->text, name).value();
}

inline std::unique_ptr<Decoder> decoder_of(const std::string& name, std::optional<Unit> unit) {
  return make_decoder(shipped(name), unit, Wire::serial);
}

/// What one whole frame gives.
inline Event event_of(const std::string& name, std::string_view frame, std::optional<Unit> unit) {
  const auto decoder = decoder_of(name, unit);
  std::vector<Received> bytes;
  for (const char c : frame) bytes.push_back({static_cast<std::uint8_t>(c), false});
  bytes.push_back({'\r', false});
  return decoder->feed(bytes).at(0);
}

}  // namespace tenth::drivers
