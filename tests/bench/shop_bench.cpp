// A bench with eight gauges: what a reading costs where each sends ten a second, and what wakes the daemon where all
// are quiet, beside the least that the same can take.
#include <array>
#include <chrono>
#include <thread>

#include "tests/bench/relay.hpp"
#include "tests/bench/samples.hpp"
#include "tests/bench/used.hpp"
#include "tests/bench/whole_daemon.hpp"

namespace tenth::bench {
namespace {

using Gauges = std::array<Gauge, 8>;
using std::chrono::microseconds;

constexpr microseconds kQuiet(2'000'000);

/// One second of presses, evenly spread; the threads that take them are measured, not the one that presses.
void press_for_a_second(benchmark::State& state, const std::string& name, const Gauges& gauges) {
  constexpr int kEach = 10;
  constexpr microseconds kEvery(1'000'000 / (kEach * std::tuple_size_v<Gauges>));
  for (auto _ : state) {
    const Used before = used_by_others();
    auto next = std::chrono::steady_clock::now();
    for (int i = 0; i < kEach; ++i)
      for (const Gauge& gauge : gauges) {
        gauge.press();
        std::this_thread::sleep_until(next += kEvery);
      }
    const Used after = used_by_others();
    keep_sample(name, 1, (after.cpu - before.cpu) / (kEach * gauges.size()));
  }
}

void stay_quiet(benchmark::State& state, const std::string& name) {
  std::this_thread::sleep_for(std::chrono::milliseconds(500));
  for (auto _ : state) {
    const Used before = used_by_others();
    std::this_thread::sleep_for(kQuiet);
    keep_count(name, used_by_others().wakeups - before.wakeups);
  }
}

void eight_gauges(benchmark::State& state) {
  const Folder folder;
  const Gauges gauges;
  Daemon daemon(folder.path());
  daemon.prepare(gauges);
  press_for_a_second(state, "eight_gauges", gauges);
}

void eight_relayed(benchmark::State& state) {
  const Folder folder;
  const Gauges gauges;
  const Relay relay(gauges, folder / "ledger.db");
  press_for_a_second(state, "eight_relayed", gauges);
}

void eight_quiet(benchmark::State& state) {
  const Folder folder;
  const Gauges gauges;
  Daemon daemon(folder.path());
  daemon.prepare(gauges);
  stay_quiet(state, "eight_quiet");
}

void eight_quiet_relayed(benchmark::State& state) {
  const Folder folder;
  const Gauges gauges;
  const Relay relay(gauges, folder / "ledger.db");
  stay_quiet(state, "eight_quiet_relayed");
}

BENCHMARK(eight_gauges)->Iterations(1)->UseRealTime();
BENCHMARK(eight_relayed)->Iterations(1)->UseRealTime();
BENCHMARK(eight_quiet)->Iterations(1)->UseRealTime();
BENCHMARK(eight_quiet_relayed)->Iterations(1)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
