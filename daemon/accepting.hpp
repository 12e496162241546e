#pragma once

#include <spdlog/spdlog.h>

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/basic_socket_acceptor.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>
#include <functional>
#include <string>

namespace tenth {

template <class Protocol>
using Admit = std::function<void(typename Protocol::socket)>;

template <class Protocol>
boost::asio::awaitable<void> accept_all(boost::asio::basic_socket_acceptor<Protocol>& acceptor, std::string door,
                                        Admit<Protocol> admit) {
  constexpr auto kTuple = boost::asio::as_tuple(boost::asio::use_awaitable);
  while (acceptor.is_open()) {
    auto [error, socket] = co_await acceptor.async_accept(kTuple);
    if (error == boost::asio::error::operation_aborted) break;
    if (!error) {
      admit(std::move(socket));
      continue;
    }
    spdlog::warn("{}: a connection could not be taken: {}", door, error.message());
    boost::asio::steady_timer pause(acceptor.get_executor(), std::chrono::milliseconds(100));
    co_await pause.async_wait(kTuple);
  }
}

/// Lets everybody in who comes to this door, until the acceptor is closed, which has to outlive that. Where one cannot
/// be taken, as with too many files open, it goes on a moment later.
template <class Protocol>
void start_accepting(boost::asio::basic_socket_acceptor<Protocol>& acceptor, const std::string& door,
                     Admit<Protocol> admit) {
  boost::asio::co_spawn(acceptor.get_executor(), accept_all<Protocol>(acceptor, door, std::move(admit)),
                        [door](const std::exception_ptr& error) {
                          if (error) spdlog::critical("{} ended by an error of ours", door);
                        });
}

}  // namespace tenth
