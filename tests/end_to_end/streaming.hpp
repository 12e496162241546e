// A gauge that sends all the time.
#pragma once

#include <functional>
#include <string>
#include <thread>

#include "tests/end_to_end/pty_gauge.hpp"

namespace acceptance {

// The value that it shows so many seconds after the start, in the unit of the gauge.
using Shown = std::function<double(double seconds)>;

class Streaming {
 public:
  // Decimal lines with three decimals, so many a second.
  Streaming(PtyGauge& gauge, int per_second, Shown shown);
  ~Streaming() { thread_.request_stop(); }
  Streaming(const Streaming&) = delete;
  Streaming& operator=(const Streaming&) = delete;

 private:
  std::jthread thread_;
};

// A bore gauge that is rocked, so many passes a second: it lies askew by up to `height` and reads `smallest` when it
// stands square, of the form that a small tilt gives.
Shown rocked(double smallest, double passes_a_second, double height = 0.3);

}  // namespace acceptance
