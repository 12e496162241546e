#include "daemon/page/stream.hpp"

#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/http/empty_body.hpp>
#include <boost/beast/http/write.hpp>
#include <chrono>
#include <sstream>

#include "daemon/page/answers.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);
constexpr std::chrono::seconds kStuck(10);

asio::awaitable<void> moment(asio::any_io_executor executor) {
  asio::steady_timer pause(executor, std::chrono::milliseconds(20));
  co_await pause.async_wait(kTuple);
}

/// The right to replay, until it ends or is destroyed; which may be after the server, with the loop.
class Turn {
 public:
  explicit Turn(std::shared_ptr<bool> taken) : taken_(std::move(taken)) { *taken_ = true; }
  Turn(const Turn&) = delete;
  Turn& operator=(const Turn&) = delete;
  ~Turn() { *taken_ = false; }

 private:
  std::shared_ptr<bool> taken_;
};

/// The stream ends with the connection, so there is no length to tell.
std::string head_text() {
  http::response<http::empty_body> head(http::status::ok, 11);
  put_safety(head);
  head.set(http::field::content_type, "text/event-stream");
  head.set(http::field::connection, "close");
  std::ostringstream text;
  text << head;
  return text.str();
}

}  // namespace

PageStream::PageStream(boost::beast::tcp_stream stream, Methods& methods, std::shared_ptr<bool> replay_under_way)
    : stream_(std::move(stream)),
      methods_(methods),
      replay_under_way_(std::move(replay_under_way)),
      waiting_(stream_.get_executor()),
      unsent_(head_text()) {}

asio::awaitable<void> PageStream::run(std::shared_ptr<PageStream> self, std::optional<std::int64_t> since) {
  self->begin(since);
  asio::co_spawn(self->stream_.get_executor(), until_gone(self), asio::detached);
  while (!self->ended_) {
    if (self->unsent_.empty()) {
      self->waiting_.expires_at(asio::steady_timer::time_point::max());
      co_await self->waiting_.async_wait(kTuple);
      continue;
    }
    const std::string now = std::exchange(self->unsent_, {});
    self->stream_.expires_after(kStuck);
    const auto [error, count] = co_await asio::async_write(self->stream_, asio::buffer(now), kTuple);
    if (error) break;
  }
  self->close();
}

/// A page that was closed is known at once, not only when something is to be sent; what it sends is of no interest.
asio::awaitable<void> PageStream::until_gone(std::shared_ptr<PageStream> self) {
  std::array<char, 256> bytes{};
  boost::system::error_code error;
  while (!error) {
    const auto [failed, count] = co_await self->stream_.socket().async_read_some(asio::buffer(bytes), kTuple);
    error = failed;
  }
  self->close();
}

/// From here on nothing is missed: the hello, then what is replayed, then what happens.
void PageStream::begin(std::optional<std::int64_t> since) {
  told_ = methods_.desk().bench().seq;
  send(event_text({{"event", "hello"}, {"version", kWireVersion}, {"seq", told_}}, 0));
  if (!since || *since >= told_) return;
  replaying_ = true;
  asio::co_spawn(stream_.get_executor(), catch_up(shared_from_this(), *since),
                 [self = shared_from_this()](const std::exception_ptr& error) {
                   if (error) self->close();
                 });
}

asio::awaitable<void> PageStream::catch_up(std::shared_ptr<PageStream> self, std::int64_t since) {
  while (*self->replay_under_way_ && !self->ended_) co_await moment(self->stream_.get_executor());
  const Turn turn(self->replay_under_way_);
  const std::shared_ptr<Listener> listener = self;  // g++ 12 destroys a temporary in an awaited call twice
  const bool whole = co_await replay(self->methods_, listener, since);
  self->replaying_ = false;
  if (!whole) self->close();
}

void PageStream::hear(const Json& event, std::int64_t seq) {
  send(event_text(event, seq));
  if (seq != 0) told_ = seq;
}

void PageStream::tell(const Json& event, std::int64_t seq) {
  if (!replaying_ && (seq == 0 || seq >= told_)) hear(event, seq);
}

/// Where something waits to be sent, that is sign of life enough.
void PageStream::beat() {
  if (unsent_.empty()) send(event_text({{"event", "beat"}, {"seq", methods_.desk().bench().seq}}, 0));
}

asio::awaitable<void> PageStream::room() {
  while (unsent_.size() > kMostUnread / 2 && !ended_) co_await moment(stream_.get_executor());
}

void PageStream::send(const std::string& text) {
  if (ended_) return;
  if (unsent_.size() > kMostUnread) return close();
  unsent_ += text;
  waiting_.cancel();
}

void PageStream::close() {
  ended_ = true;
  waiting_.cancel();
  stream_.close();
}

}  // namespace tenth
