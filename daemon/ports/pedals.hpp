#pragma once

#include <boost/asio/awaitable.hpp>
#include <boost/asio/steady_timer.hpp>
#include <functional>
#include <map>
#include <memory>
#include <string>

#include "daemon/desk.hpp"
#include "daemon/ports/port_session.hpp"

namespace tenth {

/// A pedal as `pedal.list` tells it.
Json pedal_json(const View& view, const Pedal& pedal);
Result<Json> pedal_list(const View& view, const Json& params);

/// What a pedal may do, by its word; any other word is refused.
Result<Desk::Act> pedal_act(const std::string& word);

/// One foot pedal: found, read, and its presses handed to the desk as commands of the daemon's own user. A key that is
/// held for `kLong_ms` is a long press, where the pedal has an act for that.
class PedalSession : public std::enable_shared_from_this<PedalSession> {
 public:
  static constexpr std::int64_t kLong_ms = 500;

  PedalSession(boost::asio::any_io_executor loop, Desk& desk, OpenLink open, Actor self, Pedal pedal);
  void start();
  void stop();

 private:
  static boost::asio::awaitable<void> run(std::shared_ptr<PedalSession> self);
  void try_open();
  void take(bool down, std::int64_t now_ns);
  void act(const std::string& word);
  void tell(const std::string& state, const std::string& why);

  boost::asio::any_io_executor loop_;
  Desk& desk_;
  OpenLink open_;
  Actor self_;
  Pedal pedal_;
  std::shared_ptr<drivers::Link> link_;
  boost::asio::steady_timer timer_;
  std::optional<std::int64_t> down_ns_;
  bool stopped_ = false;
};

/// All pedals; follows the ledger as they are added and dropped.
class Pedals {
 public:
  Pedals(boost::asio::any_io_executor loop, Desk& desk, OpenLink open, Actor self)
      : loop_(std::move(loop)), desk_(desk), open_(std::move(open)), self_(std::move(self)) {}
  void start_all(const Bench& bench);
  void follow(const Entry& entry, const Bench& bench);
  void stop_all();

 private:
  void start(const Pedal& pedal);

  boost::asio::any_io_executor loop_;
  Desk& desk_;
  OpenLink open_;
  Actor self_;
  std::map<std::string, std::shared_ptr<PedalSession>> sessions_;
};

}  // namespace tenth
