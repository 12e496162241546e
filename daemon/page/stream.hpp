#pragma once

#include <boost/asio/steady_timer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <memory>
#include <optional>
#include <string>

#include "daemon/replay.hpp"

namespace tenth {

/// One page that follows: the events of `watch` as server-sent events, each with its seq as id, and a beat that says
/// that the daemon lives. What is not read is bounded: past that, or where nothing moves for ten seconds, it is cut
/// off.
class PageStream final : public Listener, public std::enable_shared_from_this<PageStream> {
 public:
  static constexpr std::size_t kMostUnread = 2 * 1024 * 1024;

  /// `replay_under_way` is shared by all pages.
  PageStream(boost::beast::tcp_stream stream, Methods& methods, std::shared_ptr<bool> replay_under_way);

  /// Sends until the other side is gone. With `since` first what came after it. One replay at a time, whoever asks:
  /// each costs the loop as much as a reading of the whole ledger.
  static boost::asio::awaitable<void> run(std::shared_ptr<PageStream> self, std::optional<std::int64_t> since);
  void tell(const Json& event, std::int64_t seq);
  void beat();
  void close();

  bool gone() const override { return ended_; }
  void hear(const Json& event, std::int64_t seq) override;
  boost::asio::awaitable<void> room() override;

 private:
  static boost::asio::awaitable<void> catch_up(std::shared_ptr<PageStream> self, std::int64_t since);
  static boost::asio::awaitable<void> until_gone(std::shared_ptr<PageStream> self);
  void begin(std::optional<std::int64_t> since);
  void send(const std::string& text);

  boost::beast::tcp_stream stream_;
  Methods& methods_;
  std::shared_ptr<bool> replay_under_way_;
  boost::asio::steady_timer waiting_;
  std::string unsent_;
  std::int64_t told_ = 0;
  bool replaying_ = false, ended_ = false;
};

}  // namespace tenth
