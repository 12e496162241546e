#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "drivers/catalog.hpp"
#include "schema/profile/profile_file.hpp"

namespace tenth::fuzz {

/// Feeds the input in two pieces; its first byte says which of every 64 others are damaged. Aborts where bytes vanish
/// or a measurement says nothing or more than a length can be.
inline void decode(const char* format, const std::uint8_t* data, std::size_t size) {
  std::vector<drivers::Received> bytes;
  for (std::size_t i = 1; i < size; ++i) bytes.push_back({data[i], i % 64 == data[0]});
  const auto decoder = drivers::make_decoder(parse_profile(drivers::find_shipped(format)->text, format).value(), Unit::in, drivers::Wire::serial);
  const auto half = bytes.size() / 2;
  auto events = decoder->feed(std::span(bytes).first(half));
  for (const auto& rest : {decoder->feed(std::span(bytes).subspan(half)), decoder->finish()}) {
    events.insert(events.end(), rest.begin(), rest.end());
  }
  std::size_t accounted = 0;  // bytes that may be ends are counted twice where they are in a frame
  for (const auto byte : bytes) accounted += byte.byte == '\r' || byte.byte == '\n' ? 1U : 0U;
  for (const auto& event : events) {
    const auto* read = std::get_if<drivers::Measurement>(&event);
    accounted += read ? read->raw.size() : std::get<drivers::Fault>(event).bytes;
    if (read && (read->text.empty() || read->value.magnitude() > kLongest)) std::abort();
  }
  if (accounted < bytes.size()) std::abort();
}

}  // namespace tenth::fuzz
