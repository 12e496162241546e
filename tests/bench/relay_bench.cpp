// The least that the daemon's shape can take: the same pseudo-terminal, loop, second thread and socket, and in the
// middle a bare insert. What the whole chain takes beyond this is decoding, deciding, judging, hashing and JSON.
#include <sys/socket.h>

#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/post.hpp>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "tests/bench/gauge.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

namespace asio = boost::asio;

class Relay {
 public:
  Relay(const Gauge& gauge, const std::filesystem::path& ledger)
      : line_(loop_, ::dup(gauge.line())), database_(ledger) {
    must(::socketpair(AF_UNIX, SOCK_STREAM, 0, sockets_) == 0);
    must(fcntl(gauge.line(), F_SETFL, O_NONBLOCK) == 0);
    read();
    loop_thread_ = std::thread([this] { loop_.run(); });
    store_thread_ = std::thread([this] { store(); });
  }
  ~Relay() {
    asio::post(loop_, [this] { line_.close(); });
    loop_thread_.join();
    hand_over(true);
    store_thread_.join();
    ::close(sockets_[0]), ::close(sockets_[1]);
  }
  Relay(const Relay&) = delete;
  Relay& operator=(const Relay&) = delete;
  void wait() {
    char block[64];
    must(::read(sockets_[1], block, sizeof block) > 0);
  }

 private:
  void read() {
    line_.async_read_some(asio::buffer(block_), [this](const boost::system::error_code& error, std::size_t) {
      if (error) return;
      hand_over(false);
      read();
    });
  }
  void hand_over(bool ending) {
    {
      const std::lock_guard lock(mutex_);
      (ending ? ending_ : waiting_) = true;
    }
    changed_.notify_one();
  }
  void store() {
    std::unique_lock lock(mutex_);
    for (;;) {
      changed_.wait(lock, [this] { return waiting_ || ending_; });
      if (!waiting_) return;
      waiting_ = false;
      lock.unlock();
      database_.append(bodies_);
      asio::post(loop_, [this] { must(::write(sockets_[0], "stored\n", 7) == 7); });
      lock.lock();
    }
  }

  asio::io_context loop_{1};
  asio::posix::stream_descriptor line_;
  Bare database_;
  const std::vector<std::string> bodies_ = {reading_body()};
  char block_[64];
  int sockets_[2];
  std::mutex mutex_;
  std::condition_variable changed_;
  bool waiting_ = false, ending_ = false;
  std::thread loop_thread_, store_thread_;
};

void relay(benchmark::State& state) {
  const Folder folder;
  const Gauge gauge;
  Relay relay(gauge, folder.ledger());
  measure(state, "relay/1", 1, [&] {
    gauge.press();
    relay.wait();
  });
}

BENCHMARK(relay)->UseRealTime();

}  // namespace
}  // namespace tenth::bench
