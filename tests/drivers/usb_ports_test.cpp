#include "drivers/link/usb_ports.hpp"

#include <gtest/gtest.h>

#include "tests/drivers/fake_sysfs.hpp"

namespace tenth::drivers {
namespace {

class UsbPorts : public testing::Test {
 protected:
  std::vector<UsbPort> ports() const { return usb_ports(machine_.sys(), machine_.dev()); }
  std::string dev(const std::string& name) const { return (machine_.dev() / name).string(); }
  std::string with_serial(const std::string& serial) const {
    return device_with_serial(ports(), serial).value_or("none");
  }
  std::string in_socket(const std::string& socket) const { return device_in_socket(ports(), socket).value_or("none"); }

  FakeSysfs machine_;
};

TEST_F(UsbPorts, AreReadWithSocketSerialNumberAndDriver) {
  machine_.plug("ttyUSB0", "1-3", "A10042");
  machine_.plug_modem("ttyACM0", "2-1", "");
  const auto all = ports();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].device, dev("ttyACM0"));
  EXPECT_EQ(all[0].socket, "2-1");
  EXPECT_EQ(all[0].part, "2-1:1.0");
  EXPECT_EQ(all[0].serial, "");
  EXPECT_EQ(all[0].driver, "cdc_acm");
  EXPECT_EQ(all[1].device, dev("ttyUSB0"));
  EXPECT_EQ(all[1].socket, "1-3");
  EXPECT_EQ(all[1].part, "1-3:1.0");
  EXPECT_EQ(all[1].serial, "A10042");
  EXPECT_EQ(all[1].driver, "converter_sio");
}

TEST_F(UsbPorts, AreNeitherConsolesNorPortsOfTheBoard) {
  machine_.console("tty0");
  machine_.board_port("ttyS0", 4);
  EXPECT_TRUE(ports().empty());
  EXPECT_TRUE(usb_ports("/nowhere", "/nowhere").empty());
}

TEST_F(UsbPorts, BehindHubsHaveTheNameOfTheWholeWay) {
  machine_.plug("ttyUSB0", "1-2.4", "");
  machine_.plug("ttyUSB1", "1-2.4.1", "");
  EXPECT_EQ(in_socket("1-2.4"), dev("ttyUSB0"));
  EXPECT_EQ(in_socket("1-2.4.1"), dev("ttyUSB1"));
  EXPECT_EQ(in_socket("1-2"), "none") << "the hub is no port";
}

TEST_F(UsbPorts, AreFoundAgainUnderAnotherName) {
  machine_.plug("ttyUSB0", "1-3", "A10042");
  machine_.plug("ttyUSB1", "1-4", "");
  EXPECT_EQ(with_serial("A10042"), dev("ttyUSB0"));
  machine_.unplug("ttyUSB0", "1-3");
  machine_.unplug("ttyUSB1", "1-4");
  EXPECT_EQ(with_serial("A10042"), "none");
  machine_.plug("ttyUSB0", "1-4", "");
  machine_.plug("ttyUSB7", "1-2.1", "A10042");
  EXPECT_EQ(with_serial("A10042"), dev("ttyUSB7")) << "in another socket";
  EXPECT_EQ(in_socket("1-4"), dev("ttyUSB0")) << "without a serial number: the same socket";
}

TEST_F(UsbPorts, ThatAreNotThereAreAbsent) {
  machine_.plug("ttyUSB0", "1-3", "");
  EXPECT_EQ(device_with_serial(ports(), "A10042").error().code, "absent");
  EXPECT_EQ(device_in_socket(ports(), "1-4").error().code, "absent");
}

TEST_F(UsbPorts, TwoAlikeAreToldApartBySocketAndNeverGuessed) {
  machine_.plug("ttyUSB0", "1-3", "0001");
  machine_.plug("ttyUSB1", "1-4", "0001");
  const auto found = device_with_serial(ports(), "0001");
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().code, "ambiguous");
  EXPECT_NE(found.error().remedy.find("usb:@1-3, usb:@1-4"), std::string::npos) << found.error().remedy;
  EXPECT_EQ(in_socket("1-3"), dev("ttyUSB0"));
  EXPECT_EQ(in_socket("1-4"), dev("ttyUSB1"));
}

TEST_F(UsbPorts, TwoWithoutSerialNumbersAreNoneWithAnEmptyOne) {
  machine_.plug("ttyUSB0", "1-3", "");
  machine_.plug("ttyUSB1", "1-4", "");
  EXPECT_EQ(usb_name(ports()[0], ports()), "usb:@1-3");
  EXPECT_EQ(usb_name(ports()[1], ports()), "usb:@1-4");
}

TEST_F(UsbPorts, OfOneConverterAreToldApartByItsParts) {
  machine_.plug("ttyUSB0", "1-3", "A10042", 0);
  machine_.plug("ttyUSB1", "1-3", "A10042", 1);
  const auto by_serial = device_with_serial(ports(), "A10042"), by_socket = device_in_socket(ports(), "1-3");
  ASSERT_FALSE(by_serial || by_socket);
  EXPECT_EQ(by_serial.error().code, "ambiguous");
  EXPECT_NE(by_socket.error().remedy.find("usb:@1-3:1.0, usb:@1-3:1.1"), std::string::npos) << by_socket.error().remedy;
  EXPECT_EQ(in_socket("1-3:1.0"), dev("ttyUSB0"));
  EXPECT_EQ(in_socket("1-3:1.1"), dev("ttyUSB1"));
}

}  // namespace
}  // namespace tenth::drivers
