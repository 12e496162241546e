#include "tests/end_to_end/tcp_gauge.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <stdexcept>

namespace acceptance {

TcpGauge::TcpGauge(int port) : listening_(socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  const int yes = 1;
  setsockopt(listening_, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof address;
  if (bind(listening_, reinterpret_cast<sockaddr*>(&address), size) != 0 || listen(listening_, 4) != 0) {
    throw std::runtime_error("no TCP port");
  }
  getsockname(listening_, reinterpret_cast<sockaddr*>(&address), &size);
  port_ = ntohs(address.sin_port);
}

TcpGauge::~TcpGauge() {
  hang_up();
  close(listening_);
}

int TcpGauge::accepted(std::chrono::milliseconds wait) {
  hang_up();
  pollfd coming{listening_, POLLIN, 0};
  if (poll(&coming, 1, static_cast<int>(wait.count())) <= 0) throw std::runtime_error("nobody connects");
  connection_ = accept4(listening_, nullptr, nullptr, SOCK_CLOEXEC);
  return connection_;
}

void TcpGauge::send(std::string_view bytes) const {
  if (::send(connection_, bytes.data(), bytes.size(), MSG_NOSIGNAL) != static_cast<ssize_t>(bytes.size())) {
    throw std::runtime_error("the connection takes no bytes");
  }
}

void TcpGauge::hang_up() {
  if (connection_ < 0) return;
  shutdown(connection_, SHUT_RDWR);
  close(connection_);
  connection_ = -1;
}

}  // namespace acceptance
