#pragma once

#include <fcntl.h>
#include <termios.h>
#include <unistd.h>

#include "tests/bench/bare.hpp"

namespace tenth::bench {

/// A pseudo-terminal whose other side is a gauge.
class Gauge {
 public:
  Gauge() : master_(posix_openpt(O_RDWR | O_NOCTTY)) {
    must(master_ >= 0 && grantpt(master_) == 0 && unlockpt(master_) == 0);
    path_ = ptsname(master_);
    held_ = ::open(path_.c_str(), O_RDWR | O_NOCTTY);  // raw from the beginning
    termios line{};
    must(tcgetattr(held_, &line) == 0);
    cfmakeraw(&line);
    must(tcsetattr(held_, TCSANOW, &line) == 0);
  }
  ~Gauge() { ::close(held_), ::close(master_); }
  Gauge(const Gauge&) = delete;
  Gauge& operator=(const Gauge&) = delete;
  void press() const { must(::write(master_, "83.0100\r", 8) == 8); }
  const std::string& path() const { return path_; }
  /// The line's other end, raw.
  int line() const { return held_; }

 private:
  int master_, held_ = -1;
  std::string path_;
};

}  // namespace tenth::bench
