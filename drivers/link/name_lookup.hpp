#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <functional>
#include <string>
#include <vector>

#include "rules/result.hpp"

namespace tenth::drivers {

using Addresses = std::vector<boost::asio::ip::tcp::endpoint>;

/// What a name stands for, or why nobody knows.
struct Named {
  Addresses addresses;
  std::string why;
};

/// Asks whatever the system asks: its file of hosts, name servers, the local network (getaddrinfo). May take half a
/// minute.
Named ask_system(const std::string& host, const std::string& service);

/// Where a host is, found without keeping the loop waiting. A number needs no asking. getaddrinfo cannot be called off,
/// so it runs in a thread of its own that nobody waits for and that has nothing of ours: its answer comes through a
/// socket, and where that is closed it is the answer of nobody. So neither a `close` nor the end of the program waits.
class NameLookup {
 public:
  /// Called in that thread.
  using Ask = std::function<Named(const std::string& host, const std::string& service)>;

  NameLookup(const boost::asio::any_io_executor& executor, Ask ask) : answered_(executor), ask_(std::move(ask)) {}

  /// `service` is a number. Refused: `unknown_host`. One at a time.
  boost::asio::awaitable<Result<Addresses>> find(std::string host, std::string service);
  /// Ends the wait: refused.
  void close();

 private:
  boost::asio::posix::stream_descriptor answered_;
  Ask ask_;
};

}  // namespace tenth::drivers
