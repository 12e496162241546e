#include "tests/bench/used.hpp"

#include <unistd.h>

#include <ctime>
#include <filesystem>
#include <fstream>
#include <string>

namespace tenth::bench {
namespace {

std::chrono::nanoseconds cpu_of(clockid_t what) {
  timespec time{};
  clock_gettime(what, &time);
  return std::chrono::seconds(time.tv_sec) + std::chrono::nanoseconds(time.tv_nsec);
}

long wakeups_of(const std::filesystem::path& task) {
  const std::string key = "voluntary_ctxt_switches:";
  std::ifstream status(task / "status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with(key)) return std::stol(line.substr(key.size()));
  return 0;
}

}  // namespace

Used used_by_others() {
  Used used{cpu_of(CLOCK_PROCESS_CPUTIME_ID) - cpu_of(CLOCK_THREAD_CPUTIME_ID), 0};
  for (const auto& task : std::filesystem::directory_iterator("/proc/self/task"))
    if (task.path().filename() != std::to_string(gettid())) used.wakeups += wakeups_of(task.path());
  return used;
}

}  // namespace tenth::bench
