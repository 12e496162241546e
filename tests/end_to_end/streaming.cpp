#include "tests/end_to_end/streaming.hpp"

#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace acceptance {

Streaming::Streaming(PtyGauge& gauge, int per_second, Shown shown)
    : thread_([&gauge, per_second, shown = std::move(shown)](const std::stop_token& stop) {
        const auto start = std::chrono::steady_clock::now();
        for (int k = 0; !stop.stop_requested(); ++k) {
          const double seconds = static_cast<double>(k) / per_second;
          std::array<char, 32> line{};
          const int length = std::snprintf(line.data(), line.size(), "%.3f\r", shown(seconds));
          gauge.send({line.data(), static_cast<std::size_t>(length)});
          std::this_thread::sleep_until(start + std::chrono::duration<double>(seconds + 1.0 / per_second));
        }
      }) {}

// Begins a quarter of a pass before the turn.
Shown rocked(double smallest, double passes_a_second, double height) {
  return [=](double seconds) {
    const double tilt = std::sin(std::numbers::pi * (passes_a_second * seconds - 0.25));
    return smallest + height * tilt * tilt;
  };
}

}  // namespace acceptance
