#include "drivers/port_name.hpp"

#include <gtest/gtest.h>

namespace tenth::drivers {
namespace {

using Kind = PortName::Kind;

PortName parsed(std::string_view text) {
  const auto port = parse_port(text);
  EXPECT_TRUE(port) << text;
  return port.value_or(PortName{});
}

TEST(PortName, IsTakenApart) {
  EXPECT_EQ(parsed("hand"), (PortName{Kind::hand, "", ""}));
  EXPECT_EQ(parsed("/dev/ttyUSB0"), (PortName{Kind::device, "/dev/ttyUSB0", ""}));
  EXPECT_EQ(parsed("/dev/serial/by-id/usb-converter-if00"),
            (PortName{Kind::device, "/dev/serial/by-id/usb-converter-if00", ""}));
  EXPECT_EQ(parsed("usb:A10042"), (PortName{Kind::usb_serial, "A10042", ""}));
  EXPECT_EQ(parsed("usb:@1-2.4"), (PortName{Kind::usb_socket, "1-2.4", ""}));
  EXPECT_EQ(parsed("tcp:192.168.0.7:4001"), (PortName{Kind::tcp, "192.168.0.7", "4001"}));
  EXPECT_EQ(parsed("keys:Foot Pedal: left"), (PortName{Kind::keys, "Foot Pedal: left", ""}));
}

TEST(PortName, AHostMayHaveColonsOfItsOwn) {
  EXPECT_EQ(parsed("tcp:[fe80::1]:4001"), (PortName{Kind::tcp, "fe80::1", "4001"}));
  EXPECT_EQ(parsed("tcp:gauges.shop:65535"), (PortName{Kind::tcp, "gauges.shop", "65535"}));
}

TEST(PortName, AnythingElseIsRefusedWithWhatWouldBeRight) {
  for (const char* const text : {"", "ttyUSB0", "Hand", "usb:", "usb:@", "keys:", "com1", "usb", "./port"}) {
    const auto port = parse_port(text);
    ASSERT_FALSE(port) << text;
    EXPECT_EQ(port.error().code, "port");
    EXPECT_NE(port.error().remedy.find("usb:SERIAL"), std::string::npos) << text;
  }
  for (const char* const text : {"tcp:", "tcp:host", "tcp::4001", "tcp:host:", "tcp:host:0", "tcp:host:65536",
                                 "tcp:host:http", "tcp:host:-1", "tcp:host:40 ", "tcp:[]:4001"}) {
    const auto port = parse_port(text);
    ASSERT_FALSE(port) << text;
    EXPECT_EQ(port.error().code, "port");
    EXPECT_NE(port.error().remedy.find("tcp:HOST:PORT"), std::string::npos) << text;
  }
}

}  // namespace
}  // namespace tenth::drivers
