#include "simulators/control.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

namespace tenth::simulators {

Result<std::unique_ptr<Control>> Control::open(const std::string& path) {
  if (path == "-") return std::unique_ptr<Control>(new Control(STDIN_FILENO, ""));
  const bool made = ::mkfifo(path.c_str(), 0600) == 0;
  // Open for both directions, so that it does not end when one writer goes.
  const int fifo = ::open(path.c_str(), O_RDWR | O_CLOEXEC | O_NONBLOCK);
  struct stat status{};
  if (fifo < 0) return tl::unexpected(path + ": " + std::strerror(errno) + ": name a FIFO, or a new path for one");
  std::unique_ptr<Control> control(new Control(fifo, made ? path : ""));
  if (::fstat(fifo, &status) != 0 || !S_ISFIFO(status.st_mode)) {
    return tl::unexpected(path + " is no FIFO: name a FIFO, or a new path for one");
  }
  return control;
}

Control::~Control() {
  if (descriptor_ != STDIN_FILENO) ::close(descriptor_);
  if (!made_.empty()) ::unlink(made_.c_str());
}

std::vector<std::string> Control::lines() {
  constexpr std::size_t kLongest = 4096;
  std::array<char, 4096> bytes;
  const auto count = ::read(descriptor_, bytes.data(), bytes.size());
  if (count > 0) partial_.append(bytes.data(), static_cast<std::size_t>(count));
  ended_ = count == 0 || (count < 0 && errno != EAGAIN && errno != EINTR);
  if (ended_ && !partial_.empty()) partial_ += '\n';
  std::vector<std::string> whole;
  for (auto end = partial_.find('\n'); end != std::string::npos; end = partial_.find('\n')) {
    whole.push_back(partial_.substr(0, end));
    partial_.erase(0, end + 1);
  }
  // Past the bound the rest is taken for a line, which no act can be: it is answered, and nothing grows.
  if (partial_.size() > kLongest) whole.push_back(std::exchange(partial_, {}));
  return whole;
}

}  // namespace tenth::simulators
