#pragma once

#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <chrono>
#include <memory>

#include "daemon/page/answers.hpp"
#include "daemon/page/server.hpp"

namespace tenth {

/// One connection of a browser: one request after the other, each bounded in size and time. A page that follows the
/// events keeps it to the end.
class PageConnection : public std::enable_shared_from_this<PageConnection> {
 public:
  PageConnection(boost::asio::ip::tcp::socket socket, PageServer& server);

  using Clock = std::chrono::steady_clock;

  static boost::asio::awaitable<void> serve(std::shared_ptr<PageConnection> self);
  /// Since when no whole request has come; the end of time while one is answered, or followed.
  Clock::time_point waits_since() const { return waits_since_; }
  void close();

 private:
  boost::asio::awaitable<bool> read(PageRequest& request);
  boost::asio::awaitable<void> follow(const PageRequest& request);
  boost::asio::awaitable<bool> write(PageAnswer answer);
  boost::asio::awaitable<PageAnswer> answer(const PageRequest& request);
  boost::asio::awaitable<PageAnswer> act(const PageRequest& request, std::string_view act);

  boost::beast::tcp_stream stream_;
  PageServer& server_;
  boost::beast::flat_buffer buffer_;
  std::shared_ptr<PageStream> followed_;
  Clock::time_point waits_since_ = Clock::now();
  bool first_ = true;
};

}  // namespace tenth
