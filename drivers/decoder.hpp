#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "rules/length.hpp"

namespace tenth::drivers {

/// One byte from a wire; `damaged` where the port marked a parity or framing error.
struct Received {
  std::uint8_t byte = 0;
  bool damaged = false;
};

/// A whole frame that holds a number.
struct Measurement {
  std::string raw;   ///< the frame without its end, bytes as received
  std::string text;  ///< the number as sent, as `schema/wire.md` defines it for each format
  Length value;      ///< exact, in the frame's unit, else in the gauge's
  Unit unit = Unit::mm;
  bool unit_in_frame = false;
};

enum class FaultReason { bad_frame, too_long, cut_short, noise, parity };

/// Bytes thrown away, and why. Nothing that arrives vanishes without one.
struct Fault {
  FaultReason why = FaultReason::bad_frame;
  std::string text;  ///< for people
  std::string raw;   ///< the bytes thrown away (their first 256)
  std::size_t bytes = 0;
};

using Event = std::variant<Measurement, Fault>;

/// Bytes of one wire format into measurements. Pure: no clock, no port. Never throws on any input.
/// Feeding a stream whole, byte by byte or split anywhere gives the same events.
class Decoder {
 public:
  virtual ~Decoder() = default;
  virtual std::vector<Event> feed(std::span<const Received> bytes) = 0;
  /// The port is closing: an unfinished frame becomes a `cut_short` fault.
  virtual std::vector<Event> finish() = 0;
};

/// A format that Tenth ships.
struct Format {
  std::string name;  ///< "line", "bcd13", "bin24": what `gauge add --profile` takes
  std::string title;
  std::string definition;  ///< the whole definition as text; its SHA-256 is stored with each reading
  bool unit_in_frame;      ///< every frame names its unit; else `gauge add --unit` is required
  bool whole_by_length;    ///< a frame's fixed length shows that its beginning was seen
  std::unique_ptr<Decoder> (*make)(std::optional<Unit> unit);
};

/// All formats, by name. `find_format` gives nullptr for an unknown name.
std::span<const Format> formats();
const Format* find_format(const std::string& name);

std::string_view name(FaultReason);

}  // namespace tenth::drivers
