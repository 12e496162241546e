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
  Length value;      ///< exact, in the frame's unit, else the profile's, else the gauge's; after scale and sign
  Unit unit = Unit::mm;
  bool unit_in_frame = false;
  std::string channel = {};  ///< of an interface box; empty where frames name none
  Length step = {};          ///< what one more in the last place of `text` makes of the value
};

/// `silent` and `turning` are no bytes: no answer came, or values that gave no reading.
enum class FaultReason { bad_frame, too_long, cut_short, noise, parity, status, silent, out_of_range, turning };

/// Bytes thrown away, and why. Nothing that arrives vanishes without one.
struct Fault {
  FaultReason why = FaultReason::bad_frame;
  std::string text;  ///< for people
  std::string raw;   ///< the bytes thrown away (their first 256)
  std::size_t bytes = 0;
  bool stale = false;  ///< an answer to an earlier question: the one to the last may still come
};

using Event = std::variant<Measurement, Fault>;

/// One side of the talk with a gauge: bytes of its wire format into measurements, and what to ask where it is polled.
/// Pure: no clock, no port. Never throws on any input.
/// Feeding a stream whole, byte by byte or split anywhere gives the same events.
class Decoder {
 public:
  virtual ~Decoder() = default;
  virtual std::vector<Event> feed(std::span<const Received> bytes) = 0;
  /// The line has been quiet as long as an answer or the rest of a frame may take: an unfinished one becomes a fault.
  virtual std::vector<Event> silence() = 0;
  /// A burst of bytes has ended: those that can belong to no frame become a fault. A frame may go on.
  virtual std::vector<Event> pause() { return {}; }
  /// The port is closing: an unfinished frame becomes a `cut_short` fault.
  virtual std::vector<Event> finish() = 0;
  /// The bytes of the next question; empty: nothing is ever asked.
  virtual std::string ask() = 0;
};

std::string_view name(FaultReason);

}  // namespace tenth::drivers
