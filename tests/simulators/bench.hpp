#pragma once

#include <fcntl.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include "tests/support/folder.hpp"

namespace tenth::simulators {

/// Reads until as many bytes have come, the other side has gone, or ten seconds are over.
inline std::string read_bytes(int descriptor, std::size_t count) {
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds(10);
  std::string bytes;
  while (bytes.size() < count && std::chrono::steady_clock::now() < deadline) {
    pollfd waiting{descriptor, POLLIN, 0};
    if (::poll(&waiting, 1, 100) == 0) continue;
    std::array<char, 256> some;
    const auto got = ::read(descriptor, some.data(), std::min(some.size(), count - bytes.size()));
    if (got <= 0) break;
    bytes.append(some.data(), static_cast<std::size_t>(got));
  }
  return bytes;
}

/// True where the other side has hung up: end-of-file or an error, at once.
inline bool hung_up(int descriptor) {
  pollfd waiting{descriptor, POLLIN, 0};
  char byte = 0;
  return ::poll(&waiting, 1, 1000) == 1 && (waiting.revents & POLLHUP) != 0 && ::read(descriptor, &byte, 1) <= 0;
}

/// A connection to an address such as 127.0.0.1:4001; -1 where nobody listens.
inline int connected(const std::string& address) {
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<std::uint16_t>(std::stoi(address.substr(address.find(':') + 1))));
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  const int descriptor = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (::connect(descriptor, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0) return descriptor;
  ::close(descriptor);
  return -1;
}

/// A file descriptor of a port, as a reader of a gauge opens it.
class Reader {
 public:
  explicit Reader(int descriptor) : descriptor_(descriptor) {}
  explicit Reader(const std::filesystem::path& path) : descriptor_(::open(path.c_str(), O_RDWR | O_NOCTTY)) {}
  ~Reader() { close(); }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  void close() {
    if (descriptor_ >= 0) ::close(std::exchange(descriptor_, -1));
  }
  int descriptor() const { return descriptor_; }
  std::string read(std::size_t count) const { return read_bytes(descriptor_, count); }
  void write(std::string_view bytes) const {
    if (::write(descriptor_, bytes.data(), bytes.size()) != static_cast<ssize_t>(bytes.size())) std::abort();
  }

  /// Nothing waits to be read, nor comes at once.
  bool silent() const {
    pollfd waiting{descriptor_, POLLIN, 0};
    return ::poll(&waiting, 1, 20) == 0;
  }

 private:
  int descriptor_;
};

}  // namespace tenth::simulators
