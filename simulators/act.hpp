#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "simulators/amount.hpp"
#include "simulators/slip.hpp"

namespace tenth::simulators {

/// The data button. Without a value the gauge shows the next of its list; with a unit it was switched to that.
struct Press {
  std::string gauge;
  std::optional<Amount> value{};
  std::optional<Unit> unit{};
  std::optional<std::string> status{};  ///< the letters of this one frame
  Slip slip = Slip::none;
};

struct Raw {
  std::string gauge, bytes;
};

/// So many seeded bytes of noise.
struct Noise {
  std::string gauge;
  int count = 0;
};

/// Bytes at a rate: noise, or the frame of what is shown over and over.
struct Flood {
  std::string gauge;
  int rate = 0;  ///< bytes a second
  int seconds = 0;
  bool frames = false;
};

/// A line that does not end.
struct Endless {
  std::string gauge;
  int count = 0;  ///< of its bytes
};

/// What happens to the next answer, or frame of a stream.
struct Spoil {
  std::string gauge;
  Slip slip = Slip::none;
  int code = 0;  ///< of an exception
};

/// Open, and silent: no button, stream or answer is heard.
struct Mute {
  std::string gauge;
  bool on = true;
};

/// From now on answers come so much after the question.
struct Delay {
  std::string gauge;
  std::chrono::milliseconds time{0};
};

/// From now on the display is in this unit.
struct Switch {
  std::string gauge;
  Unit unit = Unit::mm;
};

/// The zero moves: from now on everything shown is more by this.
struct Drift {
  std::string gauge;
  Amount by;
};

/// Frames of what is shown begin or end.
struct Stream {
  std::string gauge;
  bool on = true;
};

/// The gauge stands at this value from now on.
struct Hold {
  std::string gauge;
  Amount value;
};

/// It moves there and stays.
struct Approach {
  std::string gauge;
  Amount value;
  std::chrono::milliseconds over{500};
};

/// It is rocked through its smallest diameter.
struct Rock {
  std::string gauge;
  Amount value;                            ///< the diameter
  int passes = 4;                          ///< through it
  std::optional<Amount> amplitude{};       ///< what is shown more where the swing turns
  std::chrono::milliseconds period{1000};  ///< of one pass
  Amount noise{};                          ///< standard deviation of what is shown
};

struct HangUp {
  std::string gauge;
};

struct Return {
  std::string gauge;
};

/// A pause; without a time until the control says `go`.
struct Wait {
  std::optional<std::chrono::milliseconds> time;
};

using Act = std::variant<Press, Raw, Noise, Flood, Endless, Spoil, Mute, Delay, Switch, Drift, Stream, Hold, Approach,
                         Rock, HangUp, Return, Wait>;

/// One act in words, as a scenario's `play` and the control write it (`simulators/README.md`).
Result<Act> parse_act(std::string_view words);

/// The gauge that an act is about; empty for a pause.
std::string gauge_of(const Act& act);

}  // namespace tenth::simulators
