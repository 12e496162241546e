#include "simulators/tcp_port.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/epoll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <utility>

#include "simulators/place.hpp"

namespace tenth::simulators {

namespace {

void watch(int waiting, int descriptor) {
  epoll_event event{};
  event.events = EPOLLIN;
  ::epoll_ctl(waiting, EPOLL_CTL_ADD, descriptor, &event);
}

void set(int socket, int level, int option) {
  const int on = 1;
  ::setsockopt(socket, level, option, &on, sizeof on);
}

/// Binds and listens; the port that it listens on, -1 where it cannot (errno).
int listen_at(int listener, const Address& address) {
  sockaddr_in at{};
  at.sin_family = AF_INET;
  at.sin_port = htons(address.port);
  ::inet_pton(AF_INET, address.host.c_str(), &at.sin_addr);
  socklen_t size = sizeof at;
  auto* const plain = reinterpret_cast<sockaddr*>(&at);
  // Connections of before a hang-up must not keep the port from coming back.
  set(listener, SOL_SOCKET, SO_REUSEADDR);
  if (::bind(listener, plain, size) != 0 || ::listen(listener, 4) != 0) return -1;
  return ::getsockname(listener, plain, &size) == 0 ? ntohs(at.sin_port) : -1;
}

}  // namespace

Result<Address> parse_address(std::string_view text) {
  const auto colon = text.rfind(':');
  Address address{std::string(text.substr(0, colon)), 0};
  in_addr parsed{};
  const auto port = colon == std::string_view::npos ? std::string_view{} : text.substr(colon + 1);
  const auto read = std::from_chars(port.data(), port.data() + port.size(), address.port);
  const bool right = !port.empty() && read.ec == std::errc() && read.ptr == port.data() + port.size() &&
                     ::inet_pton(AF_INET, address.host.c_str(), &parsed) == 1;
  if (right) return address;
  return tl::unexpected("'" + std::string(text) + "' is no address: write one such as 127.0.0.1:4001");
}

TcpPort::TcpPort(int listener, Address address)
    : listener_(listener), waiting_(::epoll_create1(EPOLL_CLOEXEC)), address_(std::move(address)) {}

Result<std::unique_ptr<TcpPort>> TcpPort::open(const Address& address, const std::filesystem::path& link) {
  if (auto room = link.empty() ? Result<void>{} : make_room(link); !room) return tl::unexpected(room.error());
  std::unique_ptr<TcpPort> port(new TcpPort(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0), address));
  const int chosen = listen_at(port->listener_, address);
  if (chosen < 0) {
    return tl::unexpected(address.host + ":" + std::to_string(address.port) + ": " + std::strerror(errno));
  }
  port->address_.port = static_cast<std::uint16_t>(chosen);
  port->where_ = address.host + ":" + std::to_string(chosen);
  watch(port->waiting_, port->listener_);
  if (link.empty()) return port;
  std::error_code error;
  std::filesystem::create_symlink(port->where_, link, error);
  if (error) return tl::unexpected(link.string() + ": " + error.message());
  port->link_ = link;
  return port;
}

TcpPort::~TcpPort() {
  std::error_code error;
  if (std::filesystem::read_symlink(link_, error) == where_) std::filesystem::remove(link_, error);
  part();
  ::close(waiting_);
  ::close(listener_);
}

Result<std::size_t> TcpPort::offer(std::string_view bytes) {
  if (client_ < 0) welcome();
  if (client_ < 0) return tl::unexpected("nobody is connected to " + where_);
  const auto sent = ::send(client_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
  if (sent >= 0) return static_cast<std::size_t>(sent);
  if (errno == EAGAIN) return 0U;
  const std::string why = std::strerror(errno);
  part();
  return tl::unexpected(where_ + ": " + why);
}

std::string TcpPort::hear() {
  std::array<char, 4096> bytes;
  const auto count = client_ < 0 ? 0 : ::recv(client_, bytes.data(), bytes.size(), 0);
  if (count == 0 || (count < 0 && errno != EAGAIN)) part();
  welcome();
  return std::string(bytes.data(), static_cast<std::size_t>(count < 0 ? 0 : count));
}

void TcpPort::welcome() {
  for (int next = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC | SOCK_NONBLOCK); next >= 0;
       next = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC | SOCK_NONBLOCK)) {
    if (client_ >= 0) {
      ::close(next);
      continue;
    }
    client_ = next;
    set(client_, IPPROTO_TCP, TCP_NODELAY);
    watch(waiting_, client_);
  }
}

/// What the client has sent is read first: closing over it would reset the connection and take sent bytes with it.
void TcpPort::part() {
  if (client_ < 0) return;
  std::array<char, 4096> bytes;
  ::shutdown(client_, SHUT_WR);
  while (::recv(client_, bytes.data(), bytes.size(), 0) > 0) {
  }
  ::close(std::exchange(client_, -1));
}

}  // namespace tenth::simulators
