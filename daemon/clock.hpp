#pragma once

#include <cstdint>
#include <string>

namespace tenth {

/// One look at both clocks: wall time for people, steady time for order and intervals (it counts a suspend too).
struct Instant {
  std::int64_t wall_us = 0;
  std::int64_t mono_ns = 0;
};

/// The door to time and to what names this start of the machine.
class Clock {
 public:
  virtual ~Clock() = default;
  virtual Instant now() const = 0;
  virtual std::string boot() const = 0;
};

/// The machine's own clocks; `boot` is the kernel's boot id.
class SystemClock : public Clock {
 public:
  Instant now() const override;
  std::string boot() const override;
};

}  // namespace tenth
