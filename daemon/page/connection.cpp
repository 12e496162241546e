#include "daemon/page/connection.hpp"

#include <poll.h>

#include <algorithm>
#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>
#include <charconv>
#include <chrono>

namespace tenth {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);
constexpr std::size_t kMostHead = 8 * 1024, kMostBody = 1024;
constexpr std::chrono::seconds kFirstRequest(10), kNextRequest(60), kStuck(10);

/// What may be done from the page: the methods that its buttons call.
constexpr std::array<std::string_view, 4> kActs = {"next", "back", "undo", "take"};

bool is_read(const PageRequest& request) {
  return request.method() == http::verb::get || request.method() == http::verb::head;
}

std::string_view path_of(const PageRequest& request) {
  const std::string_view target = request.target();
  return target.substr(0, target.find('?'));
}

PageAnswer sent_away(const PageRequest& request, http::status status, const std::string& why) {
  return answer_of(request, status, "text/plain; charset=utf-8", why + "\n");
}

/// The answer to what is no request of HTTP, or a too large one; none where nobody is there to hear it.
std::optional<http::status> status_of(const boost::system::error_code& error) {
  if (error == http::error::header_limit) return http::status::request_header_fields_too_large;
  if (error == http::error::body_limit) return http::status::payload_too_large;
  if (error == http::error::end_of_stream || error == http::error::partial_message) return std::nullopt;
  if (error.category() == make_error_code(http::error::bad_method).category()) return http::status::bad_request;
  return std::nullopt;
}

std::optional<std::int64_t> last_event(const PageRequest& request) {
  const std::string_view text = request["Last-Event-ID"];
  std::int64_t seq = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seq);
  return !text.empty() && error == std::errc() && end == text.data() + text.size() && seq >= 0 ? std::optional(seq)
                                                                                               : std::nullopt;
}

/// A browser that says no more reads no more either.
bool has_left(int descriptor) {
  pollfd peer{descriptor, POLLRDHUP, 0};
  return ::poll(&peer, 1, 0) == 1 && (peer.revents & (POLLRDHUP | POLLHUP)) != 0;
}

}  // namespace

PageConnection::PageConnection(asio::ip::tcp::socket socket, PageServer& server)
    : stream_(std::move(socket)), server_(server), buffer_(kMostHead + kMostBody) {}

asio::awaitable<void> PageConnection::serve(std::shared_ptr<PageConnection> self) {
  PageRequest request;
  while (co_await self->read(request)) {
    if (is_read(request) && path_of(request) == "/events" && request.method() == http::verb::get &&
        !self->server_.gate().send_away(request)) {
      co_await self->follow(request);
      co_return;
    }
    if (!co_await self->write(co_await self->answer(request))) break;
  }
  self->close();
}

/// False: there is no further request.
asio::awaitable<bool> PageConnection::read(PageRequest& request) {
  http::request_parser<http::string_body> parser;
  parser.header_limit(kMostHead);
  parser.body_limit(kMostBody);
  stream_.expires_after(std::exchange(first_, false) ? kFirstRequest : kNextRequest);
  waits_since_ = Clock::now();
  const auto [error, count] = co_await http::async_read(stream_, buffer_, parser, kTuple);
  waits_since_ = Clock::time_point::max();
  if (error) {
    PageRequest none;
    none.keep_alive(false);
    if (const auto status = status_of(error)) {
      PageAnswer away = sent_away(none, *status, "this is no request that is answered here");
      co_await write(std::move(away));
    }
    co_return false;
  }
  request = parser.release();
  co_return true;
}

/// False: the connection has had its last answer.
asio::awaitable<bool> PageConnection::write(PageAnswer answer) {
  stream_.expires_after(kStuck);
  const auto [error, count] = co_await http::async_write(stream_, answer, kTuple);
  co_return !error && answer.keep_alive();
}

asio::awaitable<void> PageConnection::follow(const PageRequest& request) {
  followed_ = server_.follow(std::move(stream_));
  co_await PageStream::run(followed_, last_event(request));
  server_.forget(followed_);
}

asio::awaitable<PageAnswer> PageConnection::answer(const PageRequest& request) {
  if (const auto away = server_.gate().send_away(request)) co_return sent_away(request, away->status, away->why);
  const std::string_view path = path_of(request);
  if (request.method() == http::verb::post && path.starts_with("/act/"))
    co_return co_await act(request, path.substr(5));
  const Asset* const asset = asset_at(path);
  if (asset == nullptr && path != "/bench" && path != "/events")
    co_return sent_away(request, http::status::not_found, "there is nothing here");
  if (!is_read(request)) co_return sent_away(request, http::status::method_not_allowed, "this can only be read");
  if (asset != nullptr) co_return answer_of(request, http::status::ok, asset->type, std::string(asset->text));
  if (path == "/events") co_return answer_of(request, http::status::ok, "text/event-stream", "");
  co_return answer_of(request, http::status::ok, "application/json", server_.bench_text());
}

asio::awaitable<PageAnswer> PageConnection::act(const PageRequest& request, std::string_view act) {
  if (std::ranges::find(kActs, act) == kActs.end())
    co_return sent_away(request, http::status::not_found, "there is no such act");
  const std::string_view type = request[http::field::content_type];
  if (!beast::iequals(type.substr(0, type.find_first_of("; ")), "application/json"))
    co_return sent_away(request, http::status::unsupported_media_type, "an act takes application/json");
  auto params = parse_json(request.body(), kMostBody);
  if (params && !params->is_object())
    params = wrong_words("params", "the parameters are no object", "give one object, such as {}");
  if (!params) co_return refused_answer(request, http::status::bad_request, params.error());
  std::string method(act);
  const HungUp left = [this] { return has_left(stream_.socket().native_handle()); };
  const auto done = co_await server_.methods().call(server_.self(), std::move(method), *params, left);
  if (done) co_return answer_of(request, http::status::ok, "application/json", canonical(*done) + "\n");
  const bool words = done.error().exit == Exit::words;
  co_return refused_answer(request, words ? http::status::bad_request : http::status::conflict, done.error());
}

void PageConnection::close() {
  if (followed_) return followed_->close();
  boost::system::error_code ignored;
  stream_.socket().shutdown(asio::socket_base::shutdown_both, ignored);
  stream_.close();
}

}  // namespace tenth
