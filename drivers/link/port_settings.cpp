#include "drivers/link/port_settings.hpp"

#include <termios.h>

#include "drivers/link/port_lock.hpp"

namespace tenth::drivers {
namespace {

constexpr tcflag_t kFrameFlags = CSIZE | CSTOPB | PARENB | CREAD | CLOCAL | HUPCL | CRTSCTS;

termios wanted(termios line) {
  cfmakeraw(&line);
  line.c_iflag = INPCK | PARMRK;
  line.c_cflag = CS8 | CREAD | CLOCAL;
  cfsetspeed(&line, B9600);
  line.c_cc[VMIN] = 1;
  line.c_cc[VTIME] = 0;
  return line;
}

bool same_input(const termios& a, const termios& b) {
  return a.c_iflag == b.c_iflag && a.c_lflag == b.c_lflag && a.c_cc[VMIN] == b.c_cc[VMIN] &&
         a.c_cc[VTIME] == b.c_cc[VTIME];
}

bool same_frame(const termios& a, const termios& b) {
  return (a.c_cflag & kFrameFlags) == (b.c_cflag & kFrameFlags) && cfgetispeed(&a) == cfgetispeed(&b) &&
         cfgetospeed(&a) == cfgetospeed(&b);
}

}  // namespace

Result<void> set_port(int descriptor, const std::string& path) {
  termios before{}, after{};
  if (tcgetattr(descriptor, &before) != 0) {
    return refuse("not_a_port", path + " is not a serial port", "give the device path of a serial port");
  }
  const termios asked = wanted(before);
  const bool done = tcsetattr(descriptor, TCSANOW, &asked) == 0 && tcgetattr(descriptor, &after) == 0;
  if (!done || !same_input(asked, after) || !(is_pseudo_terminal(descriptor) || same_frame(asked, after))) {
    return refuse("settings", "the port " + path + " does not take 9600 baud, 8 bits, no parity, 1 stop bit",
                  "use a converter that does");
  }
  return {};
}

}  // namespace tenth::drivers
