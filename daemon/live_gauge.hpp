#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>

#include "daemon/clock.hpp"
#include "drivers/decoder.hpp"

namespace tenth {

/// One value of a gauge that shows values all the time.
struct LiveValue {
  drivers::Measurement measurement;
  Instant at;
};

/// What only the running daemon knows of a gauge.
struct LiveGauge {
  std::string state = "gone", why = "not opened yet";
  std::optional<std::int64_t> last_frame_ns;  ///< steady clock
  bool shows_values = false;                  ///< its frames are live values, no readings
  std::int64_t every_ms = 0;                  ///< of a polled one
  bool faulty = false;                        ///< the last that came was a fault
  std::deque<LiveValue> shown;                ///< the newest last; as many as a rocking holds, for `take --turning`
  int recorders = 0;                          ///< clients that want what crosses its wire

  /// The newest value, where nothing but that came since and it is not too old to be what is shown now.
  const LiveValue* now_shown(std::int64_t now_ns) const;
};

/// What only the running daemon knows of a pedal.
struct LivePedal {
  std::string state = "gone", why = "not opened yet";
};

using LivePedals = std::map<std::string, LivePedal>;
using LiveGauges = std::map<std::string, LiveGauge>;

}  // namespace tenth
