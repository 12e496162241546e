#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/steady_timer.hpp>
#include <cstddef>
#include <deque>
#include <string>

namespace tenth {

/// Lines on their way to one sink, in order. A sink that is too slow loses the oldest, which the log says.
class Outbox {
 public:
  static constexpr std::size_t kMost = 64;

  /// `to` is the sink, for the log.
  Outbox(const boost::asio::any_io_executor& loop, std::string to)
      : filled_(loop, boost::asio::steady_timer::time_point::max()), to_(std::move(to)) {}

  void put(std::string line);
  /// The oldest line, once there is one. For one taker.
  boost::asio::awaitable<std::string> take();

 private:
  std::deque<std::string> lines_;
  boost::asio::steady_timer filled_;
  std::string to_;
};

}  // namespace tenth
