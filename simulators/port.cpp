#include "simulators/port.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <utility>

#include "simulators/place.hpp"

namespace tenth::simulators {

namespace {

namespace fs = std::filesystem;

tl::unexpected<std::string> failed(const std::string& what) {
  return tl::unexpected(what + ": " + std::strerror(errno));
}

}  // namespace

Port::Port(int near, int far, std::string device, fs::path link)
    : near_(near), far_(far), device_(std::move(device)), link_(std::move(link)) {}

Result<std::unique_ptr<Port>> Port::open(const fs::path& link) {
  if (auto room = make_room(link); !room) return tl::unexpected(room.error());
  const int near = ::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC | O_NONBLOCK);
  if (near < 0) return failed("no pseudo-terminal");
  std::array<char, 64> name{};
  int far = -1;
  if (::grantpt(near) == 0 && ::unlockpt(near) == 0 && ::ptsname_r(near, name.data(), name.size()) == 0) {
    far = ::open(name.data(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  }
  // The port owns both from here on; what fails below closes them.
  std::unique_ptr<Port> port(new Port(near, far, name.data(), link));
  termios settings{};
  if (far < 0 || ::tcgetattr(far, &settings) != 0) return failed("no pseudo-terminal");
  ::cfmakeraw(&settings);
  if (::tcsetattr(far, TCSANOW, &settings) != 0) return failed(port->device_);
  std::error_code error;
  fs::create_symlink(port->device_, link, error);
  if (error) return tl::unexpected(link.string() + ": " + error.message());
  return port;
}

Port::~Port() {
  std::error_code error;
  if (fs::read_symlink(link_, error) == device_) fs::remove(link_, error);
  ::close(near_);
  if (far_ >= 0) ::close(far_);
}

Result<std::size_t> Port::offer(std::string_view bytes) {
  const auto sent = ::write(near_, bytes.data(), bytes.size());
  if (sent < 0 && errno != EAGAIN) return failed(device_);
  return static_cast<std::size_t>(sent < 0 ? 0 : sent);
}

std::string Port::hear() {
  std::array<char, 4096> bytes;
  const auto count = ::read(near_, bytes.data(), bytes.size());
  return std::string(bytes.data(), static_cast<std::size_t>(count < 0 ? 0 : count));
}

void Port::forget_dead_reader() {
  int exclusive = 0;
  if (::ioctl(far_, TIOCGEXCL, &exclusive) != 0 || exclusive == 0) return;
  if (::flock(far_, LOCK_EX | LOCK_NB) != 0) return;
  ::ioctl(far_, TIOCNXCL);
  ::flock(far_, LOCK_UN);
}

}  // namespace tenth::simulators
