#pragma once

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <memory>
#include <set>
#include <string>

#include "daemon/page/gate.hpp"
#include "daemon/page/page_config.hpp"
#include "daemon/page/stream.hpp"

namespace tenth {

class PageConnection;

/// The bench page over HTTP (README.md beside this file): at most 32 connections, on the daemon's own loop.
class PageServer {
 public:
  static constexpr std::size_t kMostConnections = 32;

  /// Takes the address. Refused (4): an address that is taken (`http`), one beyond loopback without a token file
  /// (`token_file`: a token of each start would have to be carried to every screen anew), a token file that is none.
  static Result<std::unique_ptr<PageServer>> listen(boost::asio::any_io_executor loop, Methods& methods,
                                                    const PageConfig& config, Actor self);
  ~PageServer();

  void start();
  void tell(const Json& event, std::int64_t seq);
  void stop();

  /// Where the page is, without and with the token behind the `#`, which no browser sends.
  std::string address() const;
  std::string address_with_token() const;

  const Gate& gate() const { return gate_; }
  Methods& methods() { return methods_; }
  const Actor& self() const { return self_; }
  /// What the query `bench` answers, as text: made once for everybody who asks while nothing happens.
  const std::string& bench_text();

  std::shared_ptr<PageStream> follow(boost::beast::tcp_stream stream);
  void forget(const std::shared_ptr<PageStream>& stream) { streams_.erase(stream); }

 private:
  using Protocol = boost::asio::ip::tcp;
  PageServer(Protocol::acceptor acceptor, Methods& methods, Gate gate, std::string host, Actor self);
  bool make_room();
  void admit(Protocol::socket socket);
  void beat();

  Protocol::acceptor acceptor_;
  Methods& methods_;
  Gate gate_;
  std::string host_;  ///< "127.0.0.1:8642"
  Actor self_;
  std::set<std::shared_ptr<PageConnection>> connections_;
  std::set<std::shared_ptr<PageStream>> streams_;
  boost::asio::steady_timer beat_;
  bool beating_ = false;
  std::shared_ptr<bool> replay_under_way_ = std::make_shared<bool>(false);
  std::string bench_text_;
  std::int64_t bench_made_ns_ = 0;
};

}  // namespace tenth
