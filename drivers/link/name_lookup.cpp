#include "drivers/link/name_lookup.hpp"

#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/address.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <memory>
#include <system_error>
#include <thread>

namespace tenth::drivers {

namespace {

namespace asio = boost::asio;
using asio::ip::tcp;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

/// The descriptor of which a byte can be read once `named` is there. Below zero: the system has no room for that.
int ask_in_a_thread(NameLookup::Ask ask, std::string host, std::string service, std::shared_ptr<Named> named) {
  std::array<int, 2> ends{};
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) return -1;
  try {
    std::thread([=, end = ends[1]] {
      *named = ask(host, service);
      ::send(end, "", 1, MSG_NOSIGNAL);
      ::close(end);
    }).detach();
  } catch (const std::system_error&) {
    ::close(ends[0]);
    ::close(ends[1]);
    return -1;
  }
  return ends[0];
}

}  // namespace

Named ask_system(const std::string& host, const std::string& service) {
  asio::io_context own(1);  // nothing runs on it
  tcp::resolver resolver(own);
  boost::system::error_code error;
  Named named;
  for (const auto& entry : resolver.resolve(host, service, error)) named.addresses.push_back(entry.endpoint());
  if (error) named.why = error.message();
  return named;
}

asio::awaitable<Result<Addresses>> NameLookup::find(std::string host, std::string service) {
  boost::system::error_code is_name;
  const auto number = asio::ip::make_address(host, is_name);
  if (!is_name) co_return Addresses{tcp::endpoint(number, static_cast<std::uint16_t>(std::stoi(service)))};
  const auto named = std::make_shared<Named>(Named{{}, "the system has no room for the question"});
  if (const int descriptor = ask_in_a_thread(ask_, host, service, named); descriptor >= 0) {
    answered_.assign(descriptor);
    std::array<char, 1> byte{};
    const auto [closed, count] = co_await answered_.async_read_some(asio::buffer(byte), kTuple);
    if (closed) co_return refuse("unknown_host", "nobody waits for the address of " + host, "ask again");
    answered_.close();
  }
  if (!named->addresses.empty()) co_return named->addresses;
  co_return refuse("unknown_host", "no address is known of " + host + ": " + named->why,
                   "give the address as a number, or mend the name");
}

void NameLookup::close() {
  boost::system::error_code ignored;
  answered_.close(ignored);
}

}  // namespace tenth::drivers
