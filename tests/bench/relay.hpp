#pragma once

#include <sys/socket.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/post.hpp>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <span>
#include <thread>

#include "tests/bench/gauge.hpp"

namespace tenth::bench {

namespace asio = boost::asio;

/// The least that the daemon's shape can take: the same pseudo-terminals, loop, second thread and socket, and in the
/// middle a bare insert.
class Relay {
 public:
  Relay(std::span<const Gauge> gauges, const std::filesystem::path& ledger) : database_(ledger) {
    must(::socketpair(AF_UNIX, SOCK_STREAM, 0, sockets_) == 0);
    for (const Gauge& gauge : gauges) {
      must(fcntl(gauge.line(), F_SETFL, O_NONBLOCK) == 0);
      read(lines_.emplace_back(loop_, ::dup(gauge.line())));
    }
    loop_thread_ = std::thread([this] { loop_.run(); });
    store_thread_ = std::thread([this] { store(); });
  }
  ~Relay() {
    asio::post(loop_, [this] {
      for (Line& line : lines_) line.close();
    });
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
  using Line = asio::posix::stream_descriptor;

  void read(Line& line) {
    line.async_read_some(asio::buffer(block_), [this, &line](const boost::system::error_code& error, std::size_t) {
      if (error) return;
      hand_over(false);
      read(line);
    });
  }
  void hand_over(bool ending) {
    {
      const std::lock_guard lock(mutex_);
      if (ending) ending_ = true;
      if (!ending) ++waiting_;
    }
    changed_.notify_one();
  }
  void store() {
    std::unique_lock lock(mutex_);
    for (;;) {
      changed_.wait(lock, [this] { return waiting_ > 0 || ending_; });
      if (waiting_ == 0) return;
      --waiting_;
      lock.unlock();
      database_.append(bodies_);
      asio::post(loop_, [this] { must(::write(sockets_[0], "stored\n", 7) == 7); });
      lock.lock();
    }
  }

  asio::io_context loop_{1};
  std::deque<Line> lines_;
  Bare database_;
  const std::vector<std::string> bodies_ = {reading_body()};
  char block_[64];
  int sockets_[2];
  std::mutex mutex_;
  std::condition_variable changed_;
  int waiting_ = 0;
  bool ending_ = false;
  std::thread loop_thread_, store_thread_;
};

}  // namespace tenth::bench
