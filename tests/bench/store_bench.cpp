// What the chain, the guards and the store thread cost beside a bare insert through SQLite's own interface: the same
// body, the same settings, the same disk (TMPDIR), taken in turns in one run.
#include <boost/asio/io_context.hpp>

#include "schema/store/store_thread.hpp"
#include "tests/bench/bare.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

std::vector<std::string> group(const benchmark::State& state) {
  return std::vector(static_cast<std::size_t>(state.range(0)), reading_body());
}

std::string named(const char* what, const benchmark::State& state) {
  return std::string(what) + "/" + std::to_string(state.range(0));
}

void bare(benchmark::State& state) {
  const Folder folder;
  Bare database(folder / "ledger.db");
  const auto bodies = group(state);
  measure(state, named("bare", state), bodies.size(), [&] { database.append(bodies); });
}

void ledger(benchmark::State& state) {
  const Folder folder;
  Ledger chain = std::move(*Ledger::open(folder / "ledger.db"));
  const auto bodies = group(state);
  measure(state, named("ledger", state), bodies.size(), [&] { must(chain.append(bodies).has_value()); });
}

void store_thread(benchmark::State& state) {
  const Folder folder;
  boost::asio::io_context loop;
  const auto running = boost::asio::make_work_guard(loop);
  StoreThread store(std::move(*Ledger::open(folder / "ledger.db")), loop.get_executor());
  const auto bodies = group(state);
  measure(state, named("store_thread", state), bodies.size(), [&] {
    store.append(bodies, [](const Result<std::vector<Digest>>& stored) { must(stored.has_value()); });
    loop.run_one();
  });
}

BENCHMARK(bare)->Arg(1)->Arg(10)->Arg(100)->UseRealTime();
BENCHMARK(ledger)->Arg(1)->Arg(10)->Arg(100)->UseRealTime();
BENCHMARK(store_thread)->Arg(1)->Arg(10)->Arg(100)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
