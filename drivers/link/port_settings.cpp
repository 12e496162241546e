#include "drivers/link/port_settings.hpp"

#include <sys/ioctl.h>
#include <termios.h>

#include <cstdlib>

#include "drivers/link/baud.hpp"
#include "drivers/link/port_lock.hpp"

namespace tenth::drivers {

namespace {

constexpr tcflag_t kFrameFlags = CSIZE | CSTOPB | PARENB | PARODD | CREAD | CLOCAL | HUPCL | CRTSCTS;
/// A divider rarely hits a speed exactly; a character of ten bits stands up to this much.
constexpr int kMostOff_percent = 2;

termios wanted(termios now, const LineSettings& line) {
  cfmakeraw(&now);
  now.c_iflag = INPCK | PARMRK | (line.flow == Flow::xon ? IXON | IXOFF : 0U);
  now.c_cflag &= ~kFrameFlags;
  now.c_cflag |= CREAD | CLOCAL | (line.bits == 7 ? CS7 : CS8);
  if (line.stop == 2) now.c_cflag |= CSTOPB;
  if (line.parity != Parity::none) now.c_cflag |= PARENB;
  if (line.parity == Parity::odd) now.c_cflag |= PARODD;
  if (line.flow == Flow::rts) now.c_cflag |= CRTSCTS;
  now.c_cc[VMIN] = 1;
  now.c_cc[VTIME] = 0;
  return now;
}

bool same_input(const termios& a, const termios& b) {
  return a.c_iflag == b.c_iflag && a.c_lflag == b.c_lflag && a.c_cc[VMIN] == b.c_cc[VMIN] &&
         a.c_cc[VTIME] == b.c_cc[VTIME];
}

/// The older interface knows the usual speeds; other programs read those from it.
bool set_attributes(int descriptor, termios asked, int baud) {
  const bool usual = cfsetspeed(&asked, static_cast<speed_t>(baud)) == 0;
  return tcsetattr(descriptor, TCSANOW, &asked) == 0 && (usual || set_baud(descriptor, baud));
}

bool has_taken(int descriptor, const termios& asked, const LineSettings& line) {
  termios now{};
  if (tcgetattr(descriptor, &now) != 0 || !same_input(asked, now)) return false;
  if (is_pseudo_terminal(descriptor)) return true;
  const int off = std::abs(baud_of(descriptor) - line.baud);
  return (asked.c_cflag & kFrameFlags) == (now.c_cflag & kFrameFlags) &&
         off * 100LL <= 1LL * line.baud * kMostOff_percent;
}

void set_line(int descriptor, int bit, bool up) {
  ioctl(descriptor, up ? TIOCMBIS : TIOCMBIC, &bit);
}

}  // namespace

Result<void> set_port(int descriptor, const std::string& path, const LineSettings& line) {
  termios before{};
  if (tcgetattr(descriptor, &before) != 0)
    return refuse("not_a_port", path + " is not a serial port", "give the device path of a serial port");
  const termios asked = wanted(before, line);
  const bool done = set_attributes(descriptor, asked, line.baud);
  if (!done || !has_taken(descriptor, asked, line))
    return refuse("settings", "the port " + path + " does not take " + words(line), "use a converter that does");
  if (!is_pseudo_terminal(descriptor)) {
    set_line(descriptor, TIOCM_DTR, line.dtr);
    if (line.flow != Flow::rts) set_line(descriptor, TIOCM_RTS, line.rts);
  }
  return {};
}

}  // namespace tenth::drivers
