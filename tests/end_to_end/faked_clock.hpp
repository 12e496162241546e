// A bench whose daemon lives by a clock of the test's own: libfaketime lies beneath it, and a file says how far its
// clocks, wall and steady, stand before ours.
#pragma once

#include <chrono>

#include "tests/end_to_end/bench.hpp"

namespace acceptance {

class FakedClock : public Bench {
 protected:
  void SetUp() override;
  // So long after the real time. The daemon sees it at what wakes it next: a frame or a command.
  void later(std::chrono::seconds offset) const;
  // So many times as fast from now on; what it waits for from now on comes that much earlier.
  void faster(int times) const;

 private:
  void set(const std::string& offset) const;
};

}  // namespace acceptance
