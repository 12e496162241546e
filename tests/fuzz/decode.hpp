#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "drivers/catalog.hpp"
#include "schema/profile/profile_file.hpp"

namespace tenth::fuzz {

inline void expect(bool holds) {
  if (!holds) std::abort();
}

/// The first byte says which of every 64 others are damaged.
inline std::vector<drivers::Received> received(const std::uint8_t* data, std::size_t size) {
  std::vector<drivers::Received> bytes;
  for (std::size_t i = 1; i < size; ++i) bytes.push_back({data[i], i % 64 == data[0]});
  return bytes;
}

/// What a decoder makes of the bytes in pieces of `piece`. It is asked or the line falls silent now and then: where a
/// byte is `0x7F`, and always at the same bytes.
inline std::vector<drivers::Event> decoded(const Profile& profile, drivers::Wire wire,
                                           const std::vector<drivers::Received>& bytes, std::size_t piece) {
  const auto decoder = drivers::make_decoder(profile, Unit::in, wire);
  std::vector<drivers::Event> events;
  const auto add = [&](std::vector<drivers::Event> more) { events.insert(events.end(), more.begin(), more.end()); };
  for (std::size_t from = 0; from < bytes.size();) {
    const auto pause = std::find_if(bytes.begin() + static_cast<std::ptrdiff_t>(from), bytes.end(),
                                    [](const auto& each) { return each.byte == 0x7F; });
    const auto next = std::min(static_cast<std::size_t>(pause - bytes.begin()) + 1, bytes.size());
    for (; from < next; from += std::min(piece, next - from))
      add(decoder->feed(std::span(bytes).subspan(from, std::min(piece, next - from))));
    if (next % 2 == 0) add(decoder->silence());
    decoder->ask();
  }
  add(decoder->finish());
  return events;
}

inline std::size_t bytes_of(const drivers::Event& event) {
  const auto* const read = std::get_if<drivers::Measurement>(&event);
  return read != nullptr ? read->raw.size() : std::get<drivers::Fault>(event).bytes;
}

/// Aborts where bytes vanish, a measurement says nothing or more than a length can be, or the pieces matter.
inline void decode(const Profile& profile, drivers::Wire wire, const std::uint8_t* data, std::size_t size) {
  const auto bytes = received(data, size);
  const auto events = decoded(profile, wire, bytes, bytes.size() + 1), pieces = decoded(profile, wire, bytes, 3);
  expect(std::equal(events.begin(), events.end(), pieces.begin(), pieces.end(),
                    [](const auto& a, const auto& b) { return a.index() == b.index() && bytes_of(a) == bytes_of(b); }));
  std::size_t accounted = 0;  // bytes that may be ends are counted twice where they are in a frame
  for (const auto byte : bytes) accounted += byte.byte == '\r' || byte.byte == '\n' || byte.byte == '\t' ? 1U : 0U;
  for (const auto& event : events) {
    const auto* const read = std::get_if<drivers::Measurement>(&event);
    accounted += bytes_of(event);
    expect(read == nullptr || (!read->text.empty() && read->value.magnitude() <= kLongest));
  }
  expect(accounted >= bytes.size());
}

inline Profile shipped(std::string_view name) {
  return parse_profile(drivers::find_shipped(name)->text, std::string(name)).value();
}

}  // namespace tenth::fuzz
