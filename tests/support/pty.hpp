#pragma once

#include <fcntl.h>
#include <termios.h>
#include <unistd.h>

#include <cstdlib>
#include <stdexcept>
#include <string>
#include <string_view>

namespace tenth::test {

/// A pseudo-terminal whose far end is ours: what a gauge would be. Raw from the start, so that the kernel neither
/// echoes nor turns CR into LF before somebody opens it.
class Pty {
 public:
  Pty() : master_(posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC)) {
    if (master_ < 0 || grantpt(master_) != 0 || unlockpt(master_) != 0) throw std::runtime_error("no pseudo-terminal");
    path_ = ptsname(master_);
    termios line = settings();
    cfmakeraw(&line);
    tcsetattr(master_, TCSANOW, &line);
  }
  Pty(const Pty&) = delete;
  Pty& operator=(const Pty&) = delete;
  ~Pty() { hang_up(); }

  const std::string& path() const { return path_; }

  void send(std::string_view bytes) const {
    const auto written = ::write(master_, bytes.data(), bytes.size());
    if (written != static_cast<ssize_t>(bytes.size())) throw std::runtime_error("the pseudo-terminal is full");
  }

  /// What was written to the port from the other side.
  std::string sent_back() const {
    std::string bytes(4096, '\0');
    const auto count = ::read(master_, bytes.data(), bytes.size());
    bytes.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
    return bytes;
  }

  /// As the port's opener has set them.
  termios settings() const {
    termios line{};
    tcgetattr(master_, &line);
    return line;
  }

  void hang_up() {
    if (master_ >= 0) ::close(master_);
    master_ = -1;
  }

 private:
  int master_;
  std::string path_;
};

}  // namespace tenth::test
