#pragma once

#include <boost/asio/awaitable.hpp>
#include <boost/asio/local/stream_protocol.hpp>
#include <boost/asio/steady_timer.hpp>
#include <chrono>
#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "daemon/desk.hpp"
#include "daemon/replay.hpp"
#include "schema/wire/rpc.hpp"

namespace tenth {

/// One connection on the socket: one call after the other, and events once it watches.
/// What it may take is bounded: request size, time to its first exchange, unread events.
class Client final : public Listener, public std::enable_shared_from_this<Client> {
 public:
  using Socket = boost::asio::local::stream_protocol::socket;
  Client(Socket socket, Methods& methods, Actor actor, std::function<void(Client&)> on_end);

  void start();
  /// An event of the entry `seq` (0: of none), if this client watches.
  void tell(const Json& event, std::int64_t seq);
  void close();

  bool gone() const override { return ending_; }
  void hear(const Json& event, std::int64_t seq) override;
  boost::asio::awaitable<void> room() override;

 private:
  static boost::asio::awaitable<void> read(std::shared_ptr<Client> self);
  static boost::asio::awaitable<void> write(std::shared_ptr<Client> self);
  static boost::asio::awaitable<void> expect_hello(std::shared_ptr<Client> self);
  static boost::asio::awaitable<void> catch_up(std::shared_ptr<Client> self, std::int64_t since);
  boost::asio::awaitable<Result<Json>> answer(const Request& request);
  Result<Json> hello(const Json& params);
  Result<Json> watch(const Json& params);
  Result<Json> record(const Json& params);
  void begin_watch();
  bool wanted(const Json& event) const;
  bool does_not_read();
  void send(std::string line);
  void lose();
  void end_after_sending(std::chrono::seconds within);

  Socket socket_;
  Methods& methods_;
  Actor actor_;
  std::function<void(Client&)> on_end_;
  boost::asio::steady_timer hello_timer_, outbox_timer_;
  std::deque<std::string> outbox_;
  std::size_t outbox_bytes_ = 0;
  std::optional<std::chrono::steady_clock::time_point> full_since_;  ///< the outbox is past its bound
  bool greeted_ = false, ending_ = false;
  std::optional<std::string> recorded_;  ///< the gauge whose wire it wants, and nothing else
  boost::asio::steady_timer record_timer_;
  bool watching_ = false, replaying_ = false;
  std::optional<std::string> watched_engine_;
  std::optional<std::int64_t> since_;
  std::int64_t told_ = 0;  ///< the last seq whose events it was sent
};

}  // namespace tenth
