#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "daemon/clock.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// What only the running daemon knows of a gauge.
struct LiveGauge {
  std::string state = "gone", why = "not opened yet";
  std::optional<std::int64_t> last_frame_ns;  ///< steady clock
};

/// All that a question can be answered from: the state on disk, and what is alive.
struct View {
  const Bench& bench;
  const std::map<std::string, LiveGauge>& live;
  Instant now;
  std::string head_hash;     ///< hex, of `bench.seq`
  std::size_t waiting = 0;   ///< acts not yet on disk
  std::uint64_t free_bytes = 0;
};

}  // namespace tenth
