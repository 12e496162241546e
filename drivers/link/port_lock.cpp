#include "drivers/link/port_lock.hpp"

#include <sys/file.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <termios.h>
#include <unistd.h>

#include "drivers/link/holder.hpp"

namespace tenth::drivers {
namespace {

/// Our mark stands in a control character that a raw line never looks at.
constexpr int kMarkAt = VLNEXT;
constexpr cc_t kMark = 0xA7;

bool is_exclusive(int descriptor) {
  int exclusive = 0;
  return ioctl(descriptor, TIOCGEXCL, &exclusive) == 0 && exclusive != 0;
}

bool is_marked(int descriptor) {
  termios line{};
  return tcgetattr(descriptor, &line) == 0 && line.c_cc[kMarkAt] == kMark;
}

void mark(int descriptor, cc_t with) {
  termios line{};
  if (tcgetattr(descriptor, &line) != 0) return;
  line.c_cc[kMarkAt] = with;
  tcsetattr(descriptor, TCSANOW, &line);
}

bool is_left_behind(int descriptor, const std::string& path) {
  return is_pseudo_terminal(descriptor) && (is_marked(descriptor) || !find_holder(path));
}

}  // namespace

bool is_pseudo_terminal(int descriptor) {
  struct stat status{};
  return fstat(descriptor, &status) == 0 && major(status.st_rdev) >= 136 && major(status.st_rdev) <= 143;
}

tl::unexpected<Refusal> in_use(const std::string& path) {
  const auto holder = find_holder(path);
  const std::string who = holder ? holder->program + " (process " + std::to_string(holder->process) + ")"
                                 : std::string("another program, which the system does not show us");
  return refuse("in_use", "the port " + path + " is in use by " + who, "end that program, or give another port");
}

Result<void> lock_port(int descriptor, const std::string& path) {
  if (is_exclusive(descriptor) && !is_left_behind(descriptor, path)) return in_use(path);
  if (flock(descriptor, LOCK_EX | LOCK_NB) != 0) return in_use(path);
  if (!is_pseudo_terminal(descriptor)) {
    ioctl(descriptor, TIOCEXCL);
  } else if (geteuid() == 0) {
    mark(descriptor, kMark);
    ioctl(descriptor, TIOCEXCL);
  }
  return {};
}

void unlock_port(int descriptor) {
  ioctl(descriptor, TIOCNXCL);
  if (is_pseudo_terminal(descriptor)) mark(descriptor, 0);
}

}  // namespace tenth::drivers
