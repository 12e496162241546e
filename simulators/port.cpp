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

namespace tenth::simulators {

namespace {

namespace fs = std::filesystem;

tl::unexpected<std::string> failed(const std::string& what) {
  return tl::unexpected(what + ": " + std::strerror(errno));
}

/// Room for the link: its folder is made; a link that a killed simulator left behind goes.
Result<void> make_room(const fs::path& link) {
  std::error_code error;
  if (link.has_parent_path()) fs::create_directories(link.parent_path(), error);
  if (error) return tl::unexpected(link.parent_path().string() + ": " + error.message());
  const bool dead = fs::is_symlink(link, error) && !fs::exists(link, error);
  if (dead) fs::remove(link, error);
  if (!fs::exists(fs::symlink_status(link, error))) return {};
  return tl::unexpected(link.string() + " is there already: end its simulator, or name another path in the scenario");
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

Result<void> Port::send(std::string_view bytes) {
  const auto sent = ::write(near_, bytes.data(), bytes.size());
  if (sent < 0 && errno != EAGAIN) return failed(link_.string());
  if (sent == static_cast<ssize_t>(bytes.size())) return {};
  return tl::unexpected(link_.string() + " is full: nobody reads it");
}

void Port::forget_dead_reader() {
  int exclusive = 0;
  if (::ioctl(far_, TIOCGEXCL, &exclusive) != 0 || exclusive == 0) return;
  if (::flock(far_, LOCK_EX | LOCK_NB) != 0) return;
  ::ioctl(far_, TIOCNXCL);
  ::flock(far_, LOCK_UN);
}

}  // namespace tenth::simulators
