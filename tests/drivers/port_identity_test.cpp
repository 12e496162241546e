#include "drivers/link/port_identity.hpp"

#include <gtest/gtest.h>
#include <pty.h>
#include <unistd.h>

namespace tenth::drivers {
namespace {

TEST(PortIdentity, IsEmptyForWhatIsNoUsbPort) {
  int master = -1, slave = -1;
  ASSERT_EQ(openpty(&master, &slave, nullptr, nullptr, nullptr), 0);
  EXPECT_EQ(port_identity(ttyname(slave)), "");
  EXPECT_EQ(port_identity("/dev/null"), "");
  EXPECT_EQ(port_identity("/nowhere"), "");
  EXPECT_EQ(port_identity(""), "");
  close(slave);
  close(master);
}

}  // namespace
}  // namespace tenth::drivers
