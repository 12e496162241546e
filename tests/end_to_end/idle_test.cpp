// What the daemon does while nothing happens, as the kernel counts it.
#include <algorithm>
#include <fstream>
#include <sstream>
#include <thread>

#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

class Idle : public Bench {
 protected:
  // How often its threads were given the processor.
  long wakeups() const {
    long count = 0;
    for (const auto& task : std::filesystem::directory_iterator("/proc/" + std::to_string(daemon_.pid()) + "/task")) {
      std::ifstream status(task.path() / "status");
      for (std::string line; std::getline(status, line);)
        if (line.starts_with("voluntary_ctxt_switches:")) count += std::stol(line.substr(line.find(':') + 1));
    }
    return count;
  }
  // Processor time it has used, in ticks of 10 ms.
  long ticks() const {
    std::ifstream stat("/proc/" + std::to_string(daemon_.pid()) + "/stat");
    std::string text;
    std::getline(stat, text);
    std::istringstream fields(text.substr(text.rfind(')') + 2));
    std::string skipped;
    for (int i = 0; i < 11; ++i) fields >> skipped;
    long user = 0, system = 0;
    fields >> user >> system;
    return user + system;
  }
};

TEST_F(Idle, NothingWakesItWhileGaugesAreOpenAndQuiet) {
  gauge("a", {"--unit", "mm"});
  gauge("b", {"--unit", "mm"});
  long least = 1000;  // what else the machine does may wake it once
  for (int tries = 0; tries < 3 && least > 1; ++tries) {
    std::this_thread::sleep_for(std::chrono::milliseconds(500));
    const long before = wakeups();
    std::this_thread::sleep_for(std::chrono::seconds(2));
    least = std::min(least, wakeups() - before);
  }
  EXPECT_LE(least, 1);
}

TEST_F(Idle, LookingForGaugesThatAreGoneCostsNextToNothing) {
  for (const char* const name : {"a", "b", "c"}) gauge(name, {"--unit", "mm"}).unplug();
  watch_->next("gauge", [](const json& event) { return event.at("gauge") == "c" && event.at("state") == "gone"; });
  const long before = ticks(), woken = wakeups();
  std::this_thread::sleep_for(std::chrono::seconds(2));
  EXPECT_LE(ticks() - before, 4) << "of 200";
  EXPECT_LE(wakeups() - woken, 3 * 10)
      << "two looks a second for each, and what they cause; a busy loop makes thousands";
}

}  // namespace
}  // namespace acceptance
