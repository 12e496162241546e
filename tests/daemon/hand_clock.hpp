#pragma once

#include <cstdint>
#include <string>

#include "daemon/clock.hpp"

namespace tenth {

/// Time that passes when the test says so.
class HandClock : public Clock {
 public:
  Instant now() const override { return time; }
  std::string boot() const override { return "boot"; }
  void pass(std::int64_t ms) { time.wall_us += ms * 1000, time.mono_ns += ms * 1'000'000; }
  Instant time{1'800'000'000'000'000, 1'000'000'000'000};
};

}  // namespace tenth
