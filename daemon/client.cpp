#include "daemon/client.hpp"

#include <poll.h>
#include <spdlog/spdlog.h>

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/buffer.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <chrono>
#include <exception>

#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);
constexpr std::chrono::seconds kFirstExchange(10);
constexpr std::chrono::seconds kMoment(1);      // for a client that is sent away
constexpr std::chrono::seconds kLastWord(300);  // for one that was cut off: it holds one line, no more
constexpr std::size_t kMostUnreadBytes = 1 << 20;
constexpr std::size_t kMostAtOnceBytes = 2 << 20;  // of one act that tells much in one turn of the loop
constexpr std::chrono::seconds kMayLag(1);

using Steady = std::chrono::steady_clock::time_point;

/// A connection whose coroutine ended by an error is of no use any more: what it waits for would never come.
auto ends_with_errors(std::shared_ptr<Client> client) {
  return [client = std::move(client)](const std::exception_ptr& error) {
    if (!error) return;
    try {
      std::rethrow_exception(error);
    } catch (const std::exception& exception) {
      spdlog::error("a client's connection ended by an error: {}", exception.what());
    }
    client->close();
  };
}

/// Both ways are closed. One that has said all it will may still read its answer.
bool has_hung_up(int descriptor) {
  pollfd peer{descriptor, 0, 0};
  return ::poll(&peer, 1, 0) == 1 && (peer.revents & POLLHUP) != 0;
}

}  // namespace

Client::Client(Socket socket, Methods& methods, Actor actor, std::function<void(Client&)> on_end)
    : socket_(std::move(socket)),
      methods_(methods),
      actor_(std::move(actor)),
      on_end_(std::move(on_end)),
      hello_timer_(socket_.get_executor()),
      outbox_timer_(socket_.get_executor(), asio::steady_timer::time_point::max()),
      record_timer_(socket_.get_executor()) {}

void Client::start() {
  asio::co_spawn(socket_.get_executor(), read(shared_from_this()), ends_with_errors(shared_from_this()));
  asio::co_spawn(socket_.get_executor(), write(shared_from_this()), ends_with_errors(shared_from_this()));
  asio::co_spawn(socket_.get_executor(), expect_hello(shared_from_this()), ends_with_errors(shared_from_this()));
}

asio::awaitable<void> Client::expect_hello(std::shared_ptr<Client> self) {
  self->hello_timer_.expires_after(kFirstExchange);
  const auto [error] = co_await self->hello_timer_.async_wait(kTuple);
  if (!error && !self->greeted_) self->close();
}

asio::awaitable<void> Client::read(std::shared_ptr<Client> self) {
  std::string buffer;
  while (!self->ending_) {
    const std::size_t end = buffer.find('\n');
    if (end == std::string::npos) {
      if (buffer.size() > kMostRequestBytes) {
        self->send(error_line(Malformed{-32600, nullptr, "the request is longer than 1 MiB"}));
        self->end_after_sending(kMoment);
        break;
      }
      const std::size_t had = buffer.size();
      buffer.resize(had + 16 * 1024);
      const auto [error, count] =
          co_await self->socket_.async_read_some(asio::buffer(buffer.data() + had, buffer.size() - had), kTuple);
      buffer.resize(had + count);
      if (error) break;
      continue;
    }
    auto request = parse_request(std::string_view(buffer).substr(0, end));
    buffer.erase(0, end + 1);
    if (!request) {
      self->send(error_line(request.error()));
      self->end_after_sending(kMoment);
      break;
    }
    co_await self->room();
    const auto result = co_await self->answer(*request);
    if (request->wants_answer)
      self->send(result ? result_line(request->id, *result) : error_line(request->id, result.error()));
    if (result && request->method == "watch") self->begin_watch();
    if (!self->greeted_) self->end_after_sending(kMoment);
  }
  if (!self->ending_) self->close();
}

asio::awaitable<Result<Json>> Client::answer(const Request& request) {
  if (!greeted_) {
    if (request.method == "hello") co_return hello(request.params);
    co_return wrong_words("hello", "the first call is not `hello`", "say hello first (schema/wire.md)");
  }
  if (request.method == "watch") co_return watch(request.params);
  if (request.method == "gauge.record") co_return record(request.params);
  const HungUp hung_up = [self = shared_from_this()] {
    return self->ending_ || has_hung_up(self->socket_.native_handle());
  };
  co_return co_await methods_.call(actor_, request.method, request.params, hung_up);
}

Result<Json> Client::hello(const Json& object) {
  TENTH_TRY(const std::optional<std::int64_t> version, Params(object).maybe_number("version"));
  if (version != kWireVersion)
    return wrong_words("version", "this tenthd speaks version " + std::to_string(kWireVersion) + " of the wire only",
                       "use the `tenth` of the same release, " TENTH_VERSION);
  greeted_ = true;
  hello_timer_.cancel();
  return Json{{"version", kWireVersion}, {"server", "tenthd " TENTH_VERSION}, {"ledger", methods_.desk().bench().id}};
}

Result<Json> Client::watch(const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> since, params.maybe_number("since"));
  TENTH_TRY(const std::optional<std::string> engine, params.maybe_text("engine"));
  if (watching_ || recorded_) return refuse("watching", "this connection watches already", "open another");
  if (engine && !methods_.desk().bench().engines.contains(*engine))
    return refuse("unknown_engine", "there is no engine `" + *engine + "`", "`tenth engine list` shows them");
  watched_engine_ = engine;
  since_ = since;
  return Json::object();
}

Result<Json> Client::record(const Json& object) {
  constexpr std::int64_t kMost_s = 86'400;
  const Params params(object);
  TENTH_TRY(const std::string name, params.text("gauge"));
  TENTH_TRY(const std::optional<std::int64_t> for_s, params.maybe_number("for_s"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(methods_.desk().bench(), name));
  if (watching_ || recorded_) return refuse("watching", "this connection watches already", "open another");
  if (gauge->port == "hand") return refuse("hand", "gauge `" + name + "` has no wire", "record another");
  if (for_s.value_or(1) < 1 || for_s.value_or(1) > kMost_s)
    return wrong_words("for", "recording takes from 1 to 86400 seconds", "give whole seconds");
  recorded_ = name;
  ++methods_.desk().live(name).recorders;
  record_timer_.expires_after(std::chrono::seconds(for_s.value_or(kMost_s)));
  record_timer_.async_wait([weak = weak_from_this()](const boost::system::error_code& error) {
    const auto self = weak.lock();
    if (!self || error || !self->recorded_) return;
    self->send(event_line({{"event", "recorded"}, {"gauge", *self->recorded_}}));
    --self->methods_.desk().live(*std::exchange(self->recorded_, std::nullopt)).recorders;
  });
  return Json{{"gauge", name}};
}

/// From this line on nothing is missed: the hello, then what is replayed, then what happens.
void Client::begin_watch() {
  watching_ = true;
  told_ = methods_.desk().bench().seq;
  send(event_line({{"event", "hello"}, {"version", kWireVersion}, {"seq", told_}}));
  if (!since_ || *since_ >= told_) return;
  replaying_ = true;
  asio::co_spawn(socket_.get_executor(), catch_up(shared_from_this(), *since_), ends_with_errors(shared_from_this()));
}

asio::awaitable<void> Client::room() {
  while (outbox_bytes_ > kMostUnreadBytes / 2 && !ending_) {
    asio::steady_timer pause(socket_.get_executor(), std::chrono::milliseconds(20));
    co_await pause.async_wait(kTuple);
  }
}

asio::awaitable<void> Client::catch_up(std::shared_ptr<Client> self, std::int64_t since) {
  const std::shared_ptr<Listener> listener = self;  // g++ 12 destroys a temporary in an awaited call twice
  const bool whole = co_await replay(self->methods_, listener, since);
  if (!whole) self->lose();
  self->replaying_ = false;
}

void Client::hear(const Json& event, std::int64_t seq) {
  if (wanted(event)) send(event_line(event));
  told_ = seq;
}

bool Client::wanted(const Json& event) const {
  const bool wire = event.at("event") == "wire";
  if (wire || recorded_) return wire && recorded_ && event.at("gauge") == *recorded_;
  if (!watched_engine_) return true;
  const auto engine = event.find("engine");
  return engine == event.end() || engine->is_null() || *engine == *watched_engine_;
}

void Client::tell(const Json& event, std::int64_t seq) {
  if ((!watching_ && !recorded_) || replaying_ || ending_ || (seq != 0 && seq < told_) || !wanted(event)) return;
  if (does_not_read()) {
    outbox_.clear();
    outbox_bytes_ = 0;
    return lose();
  }
  send(event_line(event));
  if (seq != 0) told_ = seq;
}

/// Past the bound, and not only since just now: nobody can read what one turn of the loop tells before it is over, so
/// the lag is counted from the next one.
bool Client::does_not_read() {
  if (outbox_bytes_ <= kMostUnreadBytes) {
    full_since_.reset();
    return false;
  }
  if (!full_since_) {
    full_since_ = Steady::max();
    asio::post(socket_.get_executor(), [self = shared_from_this()] {
      if (self->full_since_) self->full_since_ = Steady::clock::now();
    });
  }
  return outbox_bytes_ > kMostAtOnceBytes || Steady::clock::now() - *full_since_ > kMayLag;
}

/// Says up to where it was told, and cuts it off.
void Client::lose() {
  send(event_line({{"event", "lost"}, {"seq", told_}}));
  end_after_sending(kLastWord);
}

void Client::send(std::string line) {
  if (ending_) return;
  outbox_bytes_ += line.size() + 1;
  outbox_.push_back(std::move(line) + "\n");
  outbox_timer_.cancel();
}

asio::awaitable<void> Client::write(std::shared_ptr<Client> self) {
  while (true) {
    if (self->outbox_.empty()) {
      if (self->ending_) break;
      co_await self->outbox_timer_.async_wait(kTuple);
      if (!self->socket_.is_open()) co_return;
      continue;
    }
    const std::string line = std::move(self->outbox_.front());
    self->outbox_.pop_front();
    const auto [error, count] = co_await asio::async_write(self->socket_, asio::buffer(line), kTuple);
    self->outbox_bytes_ -= std::min(self->outbox_bytes_, line.size());
    if (error) break;
  }
  self->close();
}

/// What is in the outbox is sent, if the client reads it in time; nothing more is taken.
void Client::end_after_sending(std::chrono::seconds within) {
  ending_ = true;
  outbox_timer_.cancel();
  hello_timer_.expires_after(within);
  hello_timer_.async_wait([self = shared_from_this()](const boost::system::error_code& error) {
    if (!error) self->close();
  });
}

void Client::close() {
  ending_ = true;
  if (!socket_.is_open()) return;
  boost::system::error_code ignored;
  socket_.close(ignored);
  hello_timer_.cancel();
  outbox_timer_.cancel();
  record_timer_.cancel();
  if (recorded_) --methods_.desk().live(*recorded_).recorders;
  on_end_(*this);
}

}  // namespace tenth
