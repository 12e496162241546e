#include "daemon/page/server.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <boost/asio/write.hpp>
#include <chrono>
#include <vector>

#include "daemon/accepting.hpp"
#include "daemon/page/address.hpp"
#include "daemon/page/connection.hpp"
#include "daemon/queries.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
using Protocol = asio::ip::tcp;

/// Often enough for a page that calls what it shows old after two seconds of silence.
constexpr std::chrono::milliseconds kBeat(500);

Result<Protocol::acceptor> bound(const asio::any_io_executor& loop, const Protocol::endpoint& at) {
  Protocol::acceptor acceptor(loop);
  boost::system::error_code error;
  acceptor.open(at.protocol(), error);
  if (!error) acceptor.set_option(asio::socket_base::reuse_address(true), error);
  if (!error) acceptor.bind(at, error);
  if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (!error) return acceptor;
  return refuse("http", "the page cannot be served on " + authority(at) + ": " + error.message(),
                "give another address, or say off");
}

Result<Token> token_of(const PageConfig& config) {
  if (!config.token_file.empty()) return Token::from_file(config.token_file);
  if (config.at->address().is_loopback()) return Token::make();
  return refuse("token_file",
                "the page on " + authority(*config.at) + " is for others than this machine and has no token file",
                "name one: token_file under [page], mode 0600");
}

}  // namespace

Result<std::unique_ptr<PageServer>> PageServer::listen(asio::any_io_executor loop, Methods& methods,
                                                       const PageConfig& config, Actor self) {
  const asio::ip::address address = config.at->address();
  if (!address.is_loopback() && !address.is_unspecified() && config.hosts.empty())
    return refuse("hosts",
                  "the page on " + authority(*config.at) + " would send everybody away: no name of it is known",
                  "name what it is called, the address itself too: hosts under [page]");
  TENTH_TRY(Token token, token_of(config));
  TENTH_TRY(Protocol::acceptor acceptor, bound(loop, *config.at));
  const Protocol::endpoint taken = acceptor.local_endpoint();
  std::string host = authority(taken);
  if (!taken.address().is_loopback() && !config.hosts.empty())
    host = config.hosts.front() + ":" + std::to_string(taken.port());
  else if (taken.address().is_unspecified())
    host = "localhost:" + std::to_string(taken.port());
  self.via = "socket";
  return std::unique_ptr<PageServer>(new PageServer(std::move(acceptor), methods, Gate(std::move(token), config.hosts),
                                                    std::move(host), std::move(self)));
}

PageServer::PageServer(Protocol::acceptor acceptor, Methods& methods, Gate gate, std::string host, Actor self)
    : acceptor_(std::move(acceptor)),
      methods_(methods),
      gate_(std::move(gate)),
      host_(std::move(host)),
      self_(std::move(self)),
      beat_(acceptor_.get_executor()) {}

PageServer::~PageServer() {
  stop();
}

void PageServer::start() {
  start_accepting<Protocol>(acceptor_, "the page", [this](Protocol::socket socket) { admit(std::move(socket)); });
}

std::string PageServer::address() const {
  return "http://" + host_ + "/";
}
std::string PageServer::address_with_token() const {
  return address() + "#token=" + gate_.token().text();
}

/// Where all places are taken, the connection that has waited longest for a request gives way: a browser opens it
/// again, and whoever opens many and says nothing keeps nobody out. False: all are being answered or follow.
bool PageServer::make_room() {
  if (connections_.size() < kMostConnections) return true;
  const auto longest = std::ranges::min_element(connections_, {}, [](const auto& each) { return each->waits_since(); });
  if ((*longest)->waits_since() == PageConnection::Clock::time_point::max()) return false;
  (*longest)->close();
  connections_.erase(longest);
  return true;
}

void PageServer::admit(Protocol::socket socket) {
  if (!make_room()) {
    boost::system::error_code ignored;
    const std::string line = "HTTP/1.1 503 Service Unavailable\r\nContent-Length: 0\r\nConnection: close\r\n\r\n";
    socket.non_blocking(true, ignored);
    socket.write_some(asio::buffer(line), ignored);
    return;
  }
  auto connection = std::make_shared<PageConnection>(std::move(socket), *this);
  connections_.insert(connection);
  asio::co_spawn(acceptor_.get_executor(), PageConnection::serve(connection),
                 [this, connection](const std::exception_ptr& error) {
                   if (error) spdlog::error("a connection to the page ended by an error");
                   connection->close();
                   connections_.erase(connection);
                 });
}

std::shared_ptr<PageStream> PageServer::follow(boost::beast::tcp_stream stream) {
  auto followed = std::make_shared<PageStream>(std::move(stream), methods_, replay_under_way_);
  streams_.insert(followed);
  if (!std::exchange(beating_, true)) beat();
  return followed;
}

/// Only while somebody follows: an idle daemon sleeps.
void PageServer::beat() {
  for (const auto& stream : std::vector(streams_.begin(), streams_.end())) stream->beat();
  beating_ = !streams_.empty() && acceptor_.is_open();
  if (!beating_) return;
  beat_.expires_after(kBeat);
  beat_.async_wait([this](const boost::system::error_code& error) {
    if (!error) beat();
  });
}

void PageServer::tell(const Json& event, std::int64_t seq) {
  bench_text_.clear();
  if (event.at("event") == "wire") return;  // for those who record
  for (const auto& stream : std::vector(streams_.begin(), streams_.end())) stream->tell(event, seq);
}

const std::string& PageServer::bench_text() {
  constexpr std::int64_t kLife_ns = 500'000'000;  // ages go on without an event
  const View view = methods_.desk().view();
  if (!bench_text_.empty() && view.now.mono_ns - bench_made_ns_ < kLife_ns) return bench_text_;
  bench_made_ns_ = view.now.mono_ns;
  bench_text_ = canonical(*bench_now(view, Json::object())) + "\n";
  return bench_text_;
}

void PageServer::stop() {
  boost::system::error_code ignored;
  if (!acceptor_.is_open()) return;
  acceptor_.close(ignored);
  beat_.cancel();
  for (const auto& connection : std::vector(connections_.begin(), connections_.end())) connection->close();
}

}  // namespace tenth
