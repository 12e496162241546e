#include "daemon/replay.hpp"

#include <boost/asio/post.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>

#include "daemon/events.hpp"
#include "schema/store/ledger.hpp"

namespace tenth {

namespace asio = boost::asio;

asio::awaitable<bool> replay(Methods& methods, std::shared_ptr<Listener> listener, std::int64_t since) {
  constexpr std::size_t kChunk = 128;
  constexpr std::chrono::milliseconds kTurn(5);  // what one row costs grows with its engine
  Bench bench;
  const auto ledger = Ledger::open_read_only(methods.ledger());
  if (!ledger) co_return false;
  while (!listener->gone() && bench.seq < methods.desk().bench().seq) {
    const auto rows = ledger->rows(bench.seq + 1, kChunk);
    if (!rows || rows->empty()) co_return false;
    const std::int64_t told = methods.desk().bench().seq;  // what is beyond comes as a live event, or next
    auto began = std::chrono::steady_clock::now();
    for (const Row& row : *rows) {
      if (row.seq > told || listener->gone()) break;
      const Entry entry{row.seq, Json::parse(row.body), hex(row.hash)};
      apply(bench, entry);
      if (row.seq <= since) continue;
      for (const Json& event : events_of(bench, entry)) listener->hear(event, row.seq);
      if (std::chrono::steady_clock::now() - began < kTurn) continue;
      co_await asio::post(asio::use_awaitable);
      began = std::chrono::steady_clock::now();
    }
    co_await listener->room();
    co_await asio::post(asio::use_awaitable);
  }
  co_return true;
}

}  // namespace tenth
