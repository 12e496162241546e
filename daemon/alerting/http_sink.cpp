#include "daemon/alerting/http_sink.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/this_coro.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>

#include "drivers/link/name_lookup.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using boost::system::error_code;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);
constexpr std::size_t kMostHeaderBytes = 8 * 1024;

http::request<http::string_body> request_of(const HttpTarget& target, std::string body) {
  http::request<http::string_body> request(http::verb::post, target.path, 11, std::move(body));
  request.set(http::field::host, target.authority());
  request.set(http::field::user_agent, "tenthd/" TENTH_VERSION);
  request.set(http::field::content_type, "application/json");
  request.keep_alive(false);
  request.prepare_payload();
  return request;
}

/// The status that it answers with, or why there is none. Of the answer only the head is read.
asio::awaitable<std::pair<error_code, unsigned>> post(HttpTarget target, std::string body,
                                                      std::chrono::milliseconds limit) {
  const auto loop = co_await asio::this_coro::executor;
  drivers::NameLookup names(loop, drivers::ask_system);
  const auto places = co_await names.find(target.host, target.port);
  if (!places) co_return std::pair(error_code(asio::error::host_not_found), 0U);
  beast::tcp_stream stream(loop);
  stream.expires_after(limit);
  const auto [closed, place] = co_await stream.async_connect(*places, kTuple);
  if (closed) co_return std::pair(closed, 0U);
  const auto request = request_of(target, std::move(body));
  const auto [cut, written] = co_await http::async_write(stream, request, kTuple);
  if (cut) co_return std::pair(cut, 0U);
  beast::flat_buffer buffer(kMostHeaderBytes);
  http::response_parser<http::empty_body> answer;
  const auto [silent, read] = co_await http::async_read_header(stream, buffer, answer, kTuple);
  co_return std::pair(error_code(silent), silent ? 0U : answer.get().result_int());
}

bool will_not_change(unsigned status) {
  return status < 500 && status != 408 && status != 429;
}

}  // namespace

HttpSink::HttpSink(const asio::any_io_executor& loop, HttpTarget target) : HttpSink(loop, std::move(target), {}) {}

HttpSink::HttpSink(const asio::any_io_executor& loop, HttpTarget target, Patience patience)
    : target_(std::move(target)), patience_(patience), outbox_(loop, "http://" + target_.authority()) {
  asio::co_spawn(loop, run(this), [](const std::exception_ptr& error) {
    if (error) spdlog::critical("alerts: the sink for HTTP ended by an error of ours");
  });
}

asio::awaitable<void> HttpSink::run(HttpSink* self) {
  while (true) co_await self->deliver(co_await self->outbox_.take());
}

asio::awaitable<void> HttpSink::deliver(std::string line) {
  asio::steady_timer pause(co_await asio::this_coro::executor);
  for (auto next = patience_.first_pause;; next = std::min(next * 2, patience_.longest_pause)) {
    const auto [error, status] = co_await post(target_, line, patience_.answer);
    if (!error && status >= 200 && status < 300) co_return;
    const std::string why = error ? error.message() : "it answered " + std::to_string(status);
    if (!error && will_not_change(status)) {
      spdlog::error("alerts: http://{} does not take this: {}: {}", target_.authority(), why, line);
      co_return;
    }
    spdlog::warn("alerts: http://{}: {}; again in {} ms", target_.authority(), why, next.count());
    pause.expires_after(next);
    co_await pause.async_wait(kTuple);
  }
}

}  // namespace tenth
