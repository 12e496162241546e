#include "tests/end_to_end/pty_gauge.hpp"

#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <stdexcept>

namespace acceptance {

PtyGauge::PtyGauge(std::filesystem::path link) : link_(std::move(link)) {
  plug();
}

PtyGauge::~PtyGauge() {
  unplug();
}

void PtyGauge::send(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = write(master_, bytes.data(), bytes.size());
    if (written <= 0) throw std::runtime_error("the pseudo-terminal takes no bytes");
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
}

std::string PtyGauge::heard(std::chrono::milliseconds wait) const {
  const auto until = std::chrono::steady_clock::now() + wait;
  std::string heard;
  while (std::chrono::steady_clock::now() < until) {
    std::array<char, 256> bytes{};
    pollfd end{master_, POLLIN, 0};
    const bool ready = poll(&end, 1, 10) > 0 && (end.revents & POLLIN) != 0;
    const ssize_t got = ready ? read(master_, bytes.data(), bytes.size()) : 0;
    if (got > 0) heard.append(bytes.data(), static_cast<std::size_t>(got));
  }
  return heard;
}

void PtyGauge::unplug() {
  if (master_ < 0) return;
  std::filesystem::remove(link_);
  close(master_);
  master_ = -1;
}

// The near end is closed again at once: nothing but the daemon has the device open.
void PtyGauge::plug() {
  int slave = -1;
  char name[64];
  if (openpty(&master_, &slave, name, nullptr, nullptr) != 0) throw std::runtime_error("no pseudo-terminal");
  fcntl(master_, F_SETFD, FD_CLOEXEC);
  termios line{};
  tcgetattr(slave, &line);
  cfmakeraw(&line);
  tcsetattr(slave, TCSANOW, &line);
  close(slave);
  device_ = name;
  std::filesystem::create_symlink(device_, link_);
}

}  // namespace acceptance
