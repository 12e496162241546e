#include "drivers/link/baud.hpp"

#include <asm/termbits.h>
#include <sys/ioctl.h>

namespace tenth::drivers {

bool set_baud(int descriptor, int baud) {
  struct termios2 line{};
  if (ioctl(descriptor, TCGETS2, &line) != 0) return false;
  line.c_cflag &= ~static_cast<tcflag_t>(CBAUD | CBAUD << IBSHIFT);
  line.c_cflag |= BOTHER | BOTHER << IBSHIFT;
  line.c_ispeed = line.c_ospeed = static_cast<speed_t>(baud);
  return ioctl(descriptor, TCSETS2, &line) == 0;
}

int baud_of(int descriptor) {
  struct termios2 line{};
  if (ioctl(descriptor, TCGETS2, &line) != 0 || line.c_ispeed != line.c_ospeed) return 0;
  return static_cast<int>(line.c_ospeed);
}

}  // namespace tenth::drivers
