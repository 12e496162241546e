#include <netinet/tcp.h>

#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/connect.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>

#include "drivers/link/open_port.hpp"

namespace tenth::drivers {

namespace {

namespace asio = boost::asio;
using asio::ip::tcp;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);
using Steady = std::chrono::steady_clock;

constexpr std::chrono::seconds kConnect(3);  // a host that does not even refuse
constexpr std::chrono::seconds kKnown(10);   // addresses may change hands

class TcpLink final : public Link {
 public:
  TcpLink(const asio::any_io_executor& executor, std::string host, std::string service, NameLookup::Ask ask)
      : names_(executor, std::move(ask)),
        socket_(executor),
        deadline_(executor),
        host_(std::move(host)),
        service_(std::move(service)),
        name_("tcp:" + (host_.find(':') == std::string::npos ? host_ : "[" + host_ + "]") + ":" + service_) {}
  TcpLink(const TcpLink&) = delete;
  TcpLink& operator=(const TcpLink&) = delete;
  ~TcpLink() override { TcpLink::close(); }

  bool connected() const override { return connected_; }
  asio::awaitable<Result<void>> connect() override;
  asio::awaitable<Chunk> read() override;
  std::vector<Received> read_rest() override;
  bool write(std::string_view bytes) override;
  Wire wire() const override { return Wire::network; }
  std::string device() const override { return name_; }
  void close() override;

 private:
  /// What has come, at most a buffer of it; `error` is set where there is none.
  std::vector<Received> read_some(boost::system::error_code& error);
  asio::awaitable<Result<void>> find();

  NameLookup names_;
  Addresses addresses_;
  Steady::time_point known_until_;
  tcp::socket socket_;
  asio::steady_timer deadline_;
  std::string host_, service_, name_;
  std::array<std::uint8_t, 4096> buffer_{};
  bool connected_ = false;
  std::shared_ptr<bool> alive_ = std::make_shared<bool>(true);  ///< the deadline may have run out and be on its way
};

/// A device that is off is tried again and again: its name is not looked up each time.
asio::awaitable<Result<void>> TcpLink::find() {
  if (Steady::now() < known_until_) co_return Result<void>();
  auto found = co_await names_.find(host_, service_);
  if (!found) co_return tl::unexpected(found.error());
  addresses_ = std::move(*found);
  known_until_ = Steady::now() + kKnown;
  co_return Result<void>();
}

asio::awaitable<Result<void>> TcpLink::connect() {
  if (const auto found = co_await find(); !found) co_return found;
  deadline_.expires_after(kConnect);
  deadline_.async_wait([this, alive = std::weak_ptr(alive_)](const boost::system::error_code& error) {
    boost::system::error_code ignored;
    if (!error && !alive.expired()) socket_.close(ignored);
  });
  const auto [error, endpoint] = co_await asio::async_connect(socket_, addresses_, kTuple);
  deadline_.cancel();
  if (error)
    co_return refuse("absent", "nobody answers at " + name_ + ": " + error.message(),
                     "switch the device on, or give another port");
  boost::system::error_code ignored;
  socket_.non_blocking(true, ignored);
  socket_.set_option(asio::socket_base::keep_alive(true), ignored);
  socket_.set_option(tcp::no_delay(true), ignored);
  // A device that lost its power says nothing: it is missed after 25 s of silence to the kernel's own questions.
  socket_.set_option(asio::detail::socket_option::integer<IPPROTO_TCP, TCP_KEEPIDLE>(10), ignored);
  socket_.set_option(asio::detail::socket_option::integer<IPPROTO_TCP, TCP_KEEPINTVL>(5), ignored);
  socket_.set_option(asio::detail::socket_option::integer<IPPROTO_TCP, TCP_KEEPCNT>(3), ignored);
  connected_ = true;
  co_return Result<void>();
}

std::vector<Received> TcpLink::read_some(boost::system::error_code& error) {
  const std::size_t count = socket_.read_some(asio::buffer(buffer_), error);
  std::vector<Received> bytes;
  for (std::size_t i = 0; i < count; ++i) bytes.push_back({buffer_[i], false});
  return bytes;
}

/// Waits, and reads in the same turn of the loop that takes the bytes: none is ever between the two when the
/// connection is closed or its rest is read.
asio::awaitable<Chunk> TcpLink::read() {
  while (true) {
    auto [error] = co_await socket_.async_wait(tcp::socket::wait_read, kTuple);
    if (error == asio::error::operation_aborted) co_return Chunk{{}, true, "closed"};
    std::vector<Received> bytes;
    if (!error) bytes = read_some(error);
    if (error == asio::error::would_block) continue;
    if (error) co_return Chunk{{}, true, "the connection has gone (" + error.message() + ")"};
    co_return Chunk{std::move(bytes), false, {}};
  }
}

std::vector<Received> TcpLink::read_rest() {
  constexpr std::size_t kMost = 256 * 1024;  // a gauge that never stops ends here too
  std::vector<Received> rest;
  boost::system::error_code error;
  while (rest.size() < kMost) {
    const std::vector<Received> bytes = read_some(error);
    if (bytes.empty()) break;
    rest.insert(rest.end(), bytes.begin(), bytes.end());
  }
  return rest;
}

bool TcpLink::write(std::string_view bytes) {
  boost::system::error_code error;
  return socket_.write_some(asio::buffer(bytes), error) == bytes.size() && !error;
}

void TcpLink::close() {
  boost::system::error_code ignored;
  deadline_.cancel();
  names_.close();
  socket_.close(ignored);
}

}  // namespace

Result<std::unique_ptr<Link>> open_tcp(const asio::any_io_executor& executor, const std::string& host,
                                       const std::string& service, NameLookup::Ask ask) {
  return std::make_unique<TcpLink>(executor, host, service, std::move(ask));
}

}  // namespace tenth::drivers
