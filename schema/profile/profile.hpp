#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "rules/length.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// The wire format that a gauge speaks. `pedal` is no gauge: each press of any of its keys is an act.
enum class Speaks { line, query, modbus, keys, bcd13, bin24, pedal };
std::string_view name(Speaks);

enum class Parity { none, even, odd };
enum class Flow { none, rts, xon };

/// How a serial line is set. Other ports have none of it.
struct LineSettings {
  int baud = 9600, bits = 8;
  Parity parity = Parity::none;
  int stop = 1;
  Flow flow = Flow::none;
  bool dtr = true, rts = true;

  friend bool operator==(const LineSettings&, const LineSettings&) = default;
};

/// "9600 baud, 8 bits, no parity, 1 stop bit".
std::string words(const LineSettings& line);

/// How frames of characters are told apart.
struct Framing {
  std::vector<std::string> ends{"\r\n", "\r", "\n"};  ///< the longest that fits ends a frame
  std::string start;                                  ///< bytes before it are dropped
  std::size_t most = 64;                              ///< bytes without the end
  std::int64_t silence_ms = 0;                        ///< above 0: a pause this long drops an unfinished frame
};

/// An exact factor from the number on the wire to the value in its unit, above zero.
struct Factor {
  std::int64_t numerator = 1, denominator = 1;
};

/// How the number of a frame becomes a value.
struct ValueForm {
  std::string pattern;  ///< RE2, for frames of characters: the groups number, and perhaps channel, unit, status
  std::optional<Unit> unit;
  std::map<std::string, Unit> units{{"mm", Unit::mm}, {"in", Unit::in}};  ///< what the unit group may say
  Factor scale;
  bool negate = false;
};

/// Any status but a good one is a fault, never a reading. An absent status is "".
struct StatusForm {
  std::vector<std::string> good{"", "K"};
  std::map<std::string, std::string> why;  ///< what a status means, for people
};

/// What makes a gauge send. Frames of a button are readings; others are live values.
enum class SentBy { button, continuous, poll };
std::string_view name(SentBy);

struct Trigger {
  SentBy by = SentBy::button;
  std::string ask;  ///< bytes to send; empty: nothing is ever written to the port, but for modbus
  std::int64_t every_ms = 250, within_ms = 500;
  std::optional<std::int64_t> settle_ms;  ///< instead of the intake's
};

/// A register of Modbus Application Protocol V1.1b3.
struct ModbusForm {
  enum class Type { int16, uint16, int32, uint32, float32 };
  enum class Order { ABCD, CDAB, BADC, DCBA };  ///< A is the most significant byte
  int unit_id = 1;
  bool holding = false;  ///< else an input register
  int address = 0;       ///< zero-based, as on the wire
  Type type = Type::float32;
  Order order = Order::ABCD;
  int decimals = 4;  ///< a float is rounded half away from zero to so many, of its unit
};

/// What is known of a gauge's way to speak: a profile file (schema/profile.md).
struct Profile {
  std::string title;
  Speaks speaks = Speaks::line;
  LineSettings line;
  Framing frame;
  ValueForm value;
  StatusForm status;
  Trigger trigger;
  ModbusForm modbus;
  std::map<std::string, std::string>
      key_map;   ///< kernel's name of a key ("KEY_COMMA") to the character it stands for here
  Limits range;  ///< of the value; outside it is a fault
};

/// Every frame names its unit, or the profile does; else `gauge add --unit` is required.
bool tells_unit(const Profile& profile);
/// A channel is among what a frame says.
bool has_channels(const Profile& profile);
/// Its frames are live values.
inline bool is_live(const Profile& profile) {
  return profile.trigger.by != SentBy::button;
}

}  // namespace tenth
