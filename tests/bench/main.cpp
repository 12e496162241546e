#include <cstdio>
#include <vector>

#include "tests/bench/beside_scipy.hpp"
#include "tests/bench/samples.hpp"

int main(int argc, char** argv) {
  // In turns, so that a disk's moods meet all alike; what stands on the command line comes later and wins.
  std::vector<char*> arguments(argv, argv + argc);
  char interleaved[] = "--benchmark_enable_random_interleaving=true";
  char repeated[] = "--benchmark_repetitions=9";
  char short_turns[] = "--benchmark_min_time=0.2";
  char summary[] = "--benchmark_report_aggregates_only=true";
  arguments.insert(arguments.begin() + 1, {interleaved, repeated, short_turns, summary});
  int count = static_cast<int>(arguments.size());
  benchmark::Initialize(&count, arguments.data());
  benchmark::RunSpecifiedBenchmarks();
  std::puts("");
  for (const char* rows : {"/1", "/10", "/100"}) {
    for (const char* what : {"bare", "ledger", "store_thread"}) {
      tenth::bench::print_beside(std::string(what) + rows, std::string("bare") + rows);
    }
  }
  tenth::bench::print_beside("relay/1", "bare/1");
  tenth::bench::print_beside("whole_chain/1", "bare/1");
  tenth::bench::print_beside("whole_chain/1", "relay/1");
  tenth::bench::print_cpu_beside("eight_gauges", "eight_relayed");
  tenth::bench::print_counts_beside("eight_quiet", "eight_quiet_relayed");
  for (const std::string format : {"line", "bcd13", "bin24", "query", "keys", "modbus"})
    tenth::bench::print_beside("decode " + format, "memchr " + format);
  tenth::bench::print_goal("check_v8", std::chrono::milliseconds(1));
  tenth::bench::print_goal("remedies_v8", std::chrono::milliseconds(10));
  tenth::bench::print_goal("shells_10_of_40", std::chrono::seconds(1));
  tenth::bench::print_goal("causes_v8", std::chrono::milliseconds(1));
  tenth::bench::print_beside_scipy();
}
