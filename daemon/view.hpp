#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "daemon/alerting/alert_config.hpp"
#include "daemon/clock.hpp"
#include "daemon/live_gauge.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// All that a question can be answered from: the state on disk, and what is alive.
struct View {
  const Bench& bench;
  const LiveGauges& live;
  const LivePedals& pedals;
  Instant now;
  std::string head_hash;    ///< hex, of `bench.seq`
  std::size_t waiting = 0;  ///< acts not yet on disk
  std::uint64_t free_bytes = 0;
  InSession in_session = {};
};

}  // namespace tenth
