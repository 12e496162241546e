// What the whole chain takes beyond this is decoding, deciding, judging, hashing and JSON.
#include "tests/bench/relay.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

void relay(benchmark::State& state) {
  const Folder folder;
  const Gauge gauge;
  Relay relay({&gauge, 1}, folder / "ledger.db");
  measure(state, "relay/1", 1, [&] {
    gauge.press();
    relay.wait();
  });
}

BENCHMARK(relay)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
