#include "daemon/clock.hpp"

#include <chrono>
#include <fstream>

namespace tenth {

Instant SystemClock::now() const {
  using namespace std::chrono;
  return {duration_cast<microseconds>(system_clock::now().time_since_epoch()).count(),
          duration_cast<nanoseconds>(steady_clock::now().time_since_epoch()).count()};
}

std::string SystemClock::boot() const {
  std::ifstream file("/proc/sys/kernel/random/boot_id");
  std::string id;
  std::getline(file, id);
  return id;
}

}  // namespace tenth
