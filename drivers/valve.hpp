#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// Faults that were held back, told as one.
struct Held {
  FaultReason why = FaultReason::bad_frame;
  std::uint64_t count = 0, bytes = 0;
};

/// Keeps a gauge that sends nonsense from flooding the ledger: of each reason ten faults a minute are told, the others
/// are counted and told as one when the minute ends. A minute begins with its first fault. One valve for each gauge.
/// Times are steady nanoseconds.
class Valve {
 public:
  static constexpr int kMost = 10;
  static constexpr std::int64_t kMinute_ns = 60'000'000'000;

  /// True where the fault is to be told now; else it is counted until `release`.
  bool admit(const Fault& fault, std::int64_t now_ns);
  /// What was held back in minutes that are over; what still waits is told by a later call.
  std::vector<Held> release(std::int64_t now_ns);
  /// All that is held back: the port closes.
  std::vector<Held> release_all();

 private:
  struct Minute {
    std::int64_t began_ns = 0;
    int told = 0;
    Held held;
  };
  std::map<FaultReason, Minute> minutes_;
};

}  // namespace tenth::drivers
