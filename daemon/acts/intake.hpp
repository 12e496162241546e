#pragma once

#include <optional>
#include <string>

#include "daemon/draft.hpp"
#include "drivers/decoder.hpp"
#include "rules/reading.hpp"
#include "rules/stream/turning.hpp"

namespace tenth {

/// A gauge is awaited on its master this long.
inline constexpr std::int64_t kAwait_us = 120'000'000;

/// What arrives then comes too late to be the setting that is awaited.
bool waited_too_long(const Awaited& awaited, const Instant& arrived);

/// What stood when a frame's last byte came, where a command was under way that may change it: the frame belongs to
/// that.
struct Before {
  Standing standing;
  std::optional<Awaited> awaited;
};

/// A rocked gauge: its turning point, and the stream that it was found in, packed.
struct Turned {
  stream::Turning turning;
  std::string samples;
};

/// A frame from a gauge's port, as its session hands it in.
struct Frame {
  std::string gauge;
  drivers::Measurement measurement;
  bool damaged = false;
  Instant arrived;                            ///< at its last byte
  std::optional<std::int64_t> since_last_ns;  ///< since the gauge's last frame
  std::size_t dropped = 0;                    ///< bytes thrown away since the frame before
  std::optional<Before> before;
  std::optional<std::int64_t> settle_ms = {};  ///< the profile's, instead of the intake's
  std::optional<Turned> turned = {};           ///< the value is a turning point
};

/// A fault of a port: bytes thrown away. `count` above 1 where the valve held some back.
struct PortFault {
  std::string gauge;
  drivers::Fault fault;
  std::uint64_t count = 1;
};

/// One frame becomes a setting, where the gauge is awaited on its master, else a reading. Returns its seq; 0 where the
/// master's frame was refused.
std::int64_t take_frame(Draft& draft, const Frame& frame);
void take_fault(Draft& draft, const PortFault& fault);
/// A fault came in the same burst of bytes as readings and settings that are stored already: they are damaged too. The
/// readings become suspect; a damaged setting counts no more.
void doubt_damaged(Draft& draft, const std::vector<std::int64_t>& seqs);
/// The port of a gauge opened or went away. `device` says what converter it is, empty where the system does not know.
void take_link(Draft& draft, const std::string& gauge, const std::string& state, const std::string& why,
               const std::string& device);

/// A value before it is a reading: from a gauge's frame or typed by hand.
struct Value {
  std::optional<std::string> gauge;
  std::string raw, text;
  Unit unit = Unit::mm;
  Length value;
  Source source = Source::gauge;
  std::optional<std::string> note;
  bool unit_differs = false, too_soon = false, damaged = false;
  std::optional<Instant> arrived;
  std::size_t dropped = 0;
  std::optional<Turned> turned;
};

/// The absolute size where the gauge shows this: after its setting; empty where it has none and reads deviations.
/// `gauge` null: a value by hand.
std::optional<Length> size_of(const Gauge* gauge, Length shown);

/// Appends a reading at the standing given, with its doubts; moves the round on if it is kept. Returns its seq.
std::int64_t take_value(Draft& draft, const Value& value, const Standing& standing);

/// The doubts of a size at a place of an engine, as if it came now. Those of the frame are not among them.
std::vector<Doubt> doubts_at(const Engine& engine, const Place& place, Measures measures, std::optional<Length> size);

}  // namespace tenth
