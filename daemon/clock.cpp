#include "daemon/clock.hpp"

#include <time.h>

#include <chrono>
#include <fstream>

namespace tenth {

Instant SystemClock::now() const {
  using namespace std::chrono;
  timespec since_boot{};
  clock_gettime(CLOCK_BOOTTIME, &since_boot);  // steady, and goes on while the machine sleeps
  return {duration_cast<microseconds>(system_clock::now().time_since_epoch()).count(),
          since_boot.tv_sec * 1'000'000'000 + since_boot.tv_nsec};
}

std::string SystemClock::boot() const {
  std::ifstream file("/proc/sys/kernel/random/boot_id");
  std::string id;
  std::getline(file, id);
  return id;
}

}  // namespace tenth
