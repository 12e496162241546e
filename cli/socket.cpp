#include "cli/socket.hpp"

#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <utility>

#include "rules/nearest.hpp"
#include "schema/wire/rpc.hpp"

namespace tenth::cli {
namespace {

std::string error_text(int error) {
  return std::generic_category().message(error);
}

tl::unexpected<Refusal> unreachable(const std::string& path, const std::string& why) {
  return tl::unexpected(Refusal{Exit::unreachable, "unreachable", "cannot reach the daemon at " + path + ": " + why,
                                "start it with 'tenthd', or name its socket with --socket"});
}

tl::unexpected<Refusal> gone(const std::string& why) {
  return tl::unexpected(Refusal{Exit::unreachable, "gone", "the daemon " + why,
                                "see that 'tenthd' runs and what it logged, then ask again"});
}

}  // namespace

Socket::Socket(Socket&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)),
      path_(std::move(other.path_)),
      waiting_(std::move(other.waiting_)),
      searched_(other.searched_) {}

Socket& Socket::operator=(Socket&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  std::swap(path_, other.path_);
  std::swap(waiting_, other.waiting_);
  std::swap(searched_, other.searched_);
  return *this;
}

Socket::~Socket() {
  if (descriptor_ >= 0) close(descriptor_);
}

Result<Socket> Socket::connect(const std::string& path) {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  if (path.size() >= sizeof(address.sun_path))
    return wrong_words("socket", "the socket's path is too long: " + quoted(path), "use one of at most 107 bytes");
  std::memcpy(address.sun_path, path.data(), path.size());
  Socket made(socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0), path);
  if (made.descriptor_ < 0) return unreachable(path, error_text(errno));
  // A daemon that takes no connections must not hold us: the same limit bounds connecting and sending.
  const timeval limit{10, 0};
  setsockopt(made.descriptor_, SOL_SOCKET, SO_SNDTIMEO, &limit, sizeof(limit));
  const auto* generic = reinterpret_cast<const sockaddr*>(&address);
  if (::connect(made.descriptor_, generic, sizeof(address)) != 0) return unreachable(path, error_text(errno));
  return made;
}

Result<bool> Socket::send_line(const std::string& line) {
  const std::string bytes = line + '\n';
  for (std::size_t sent = 0; sent < bytes.size();) {
    const auto count = send(descriptor_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return gone("at " + path_ + " takes no more: " + error_text(errno));
    sent += static_cast<std::size_t>(count);
  }
  return true;
}

std::optional<std::string> Socket::whole_line() {
  const auto end = waiting_.find('\n', searched_);
  if (end == std::string::npos) return searched_ = waiting_.size(), std::nullopt;
  std::string line = waiting_.substr(0, end);
  waiting_.erase(0, end + 1);
  searched_ = 0;
  return line;
}

Result<bool> Socket::receive(std::optional<std::chrono::milliseconds> patience) {
  std::array<char, 65536> block{};
  if (waiting_.size() > kMostAnswerBytes) return gone("at " + path_ + " sends an answer without an end");
  while (true) {
    pollfd waits{descriptor_, POLLIN, 0};
    const int ready = poll(&waits, 1, patience ? static_cast<int>(patience->count()) : -1);
    if (ready == 0) return false;
    const auto count = ready < 0 ? ready : recv(descriptor_, block.data(), block.size(), 0);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return gone("at " + path_ + " cannot be read: " + error_text(errno));
    if (count == 0) return gone("at " + path_ + " hung up");
    waiting_.append(block.data(), static_cast<std::size_t>(count));
    return true;
  }
}

Result<std::string> Socket::read_line(std::optional<std::chrono::milliseconds> patience) {
  while (true) {
    if (auto line = whole_line()) return std::move(*line);
    TENTH_TRY(const bool more, receive(patience));
    if (!more) return gone("at " + path_ + " does not answer");
  }
}

Result<std::optional<std::string>> Socket::line_within(std::chrono::milliseconds patience) {
  const auto until = std::chrono::steady_clock::now() + patience;
  while (true) {
    if (auto line = whole_line()) return line;
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - std::chrono::steady_clock::now());
    TENTH_TRY(const bool more, receive(std::max(left, std::chrono::milliseconds(0))));
    if (!more) return std::nullopt;
  }
}

}  // namespace tenth::cli
