#include "drivers/link/found_ports.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

#include "drivers/link/keyboards.hpp"
#include "tests/drivers/fake_sysfs.hpp"
#include "tests/drivers/other_program.hpp"

namespace tenth::drivers {
namespace {

/// Key bits of a whole keyboard and of a mouse, as the kernel prints them (words of 64 bits, the highest first).
const char* const kWholeKeyboard = "1000000000007 ff9f207ac14057ff febeffdfffefffff fffffffffffffffe";
const char* const kMouse = "1f0000 0 0 0 0";

class FoundPorts : public testing::Test {
 protected:
  std::vector<FoundPort> found() const { return find_ports(machine_.sys(), machine_.dev()); }
  std::vector<Keyboard> found_keyboards() const { return keyboards(machine_.sys(), machine_.dev()); }
  std::string dev(const std::string& name) const { return (machine_.dev() / name).string(); }

  FakeSysfs machine_;
};

TEST_F(FoundPorts, AreConvertersPortsOfTheBoardAndKeyboards) {
  machine_.plug("ttyUSB0", "1-3", "A10042");
  machine_.board_port("ttyS1", 4);
  machine_.board_port("ttyS0", 0);
  machine_.console("tty7");
  machine_.keyboard("event3", "Bore gauge", "", kWholeKeyboard);
  machine_.keyboard("event4", "Mouse", "", kMouse);
  const auto all = found();
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0].port, "usb:A10042");
  EXPECT_EQ(all[0].device, dev("ttyUSB0"));
  EXPECT_EQ(all[0].driver, "converter_sio");
  EXPECT_EQ(all[1].port, dev("ttyS1"));
  EXPECT_EQ(all[2].port, "keys:Bore gauge");
  EXPECT_EQ(all[2].device, dev("input/event3"));
  for (const FoundPort& each : all) EXPECT_EQ(each.holder + each.why, "") << each.port;
}

TEST_F(FoundPorts, AreNamedSoThatEachNameIsOnePort) {
  machine_.plug("ttyUSB0", "1-1", "0001");
  machine_.plug("ttyUSB1", "1-2", "0001");
  machine_.plug("ttyUSB2", "1-4", "");
  machine_.plug("ttyUSB3", "1-5.1", "A10042", 0);
  machine_.plug("ttyUSB4", "1-5.1", "A10042", 1);
  std::vector<std::string> names;
  for (const FoundPort& each : found()) names.push_back(each.port);
  EXPECT_EQ(names, (std::vector<std::string>{"usb:@1-1", "usb:@1-2", "usb:@1-4", "usb:@1-5.1:1.0", "usb:@1-5.1:1.1"}));
}

TEST_F(FoundPorts, SayWhoHoldsThem) {
  machine_.plug("ttyUSB0", "1-3", "");
  const test::OtherProgram other([path = dev("ttyUSB0")] { open(path.c_str(), O_RDONLY); });
  EXPECT_EQ(found().at(0).holder, std::string(test::kOtherName) + " (process " + other.process() + ")");
}

TEST_F(FoundPorts, SayWhatStopsUsAndTheRemedy) {
  machine_.plug("ttyUSB0", "1-3", "");
  machine_.plug("ttyUSB1", "1-4", "");
  std::filesystem::remove(machine_.dev() / "ttyUSB1");
  std::filesystem::permissions(machine_.dev() / "ttyUSB0", std::filesystem::perms::none);
  const auto all = found();
  const bool told = all.at(0).why.find("sudo usermod -aG ") != std::string::npos;
  EXPECT_EQ(told, geteuid() != 0) << "nothing stops root: " << all[0].why;
  EXPECT_EQ(all.at(1).why, "the device " + dev("ttyUSB1") + " is not there");
}

TEST_F(FoundPorts, KeyboardsAreFoundBySerialNumberBeforeName) {
  machine_.keyboard("event3", "Bore gauge", "K7", kWholeKeyboard);
  machine_.keyboard("event5", "K7", "", kWholeKeyboard);
  machine_.keyboard("event6", "Pedal", "", "10000000 0");
  EXPECT_EQ(found_keyboards().size(), 2U);
  EXPECT_EQ(keyboard_named(found_keyboards(), "K7").value_or("none"), dev("input/event3"));
  EXPECT_EQ(keyboard_named(found_keyboards(), "Bore gauge").value_or("none"), dev("input/event3"));
  EXPECT_EQ(keyboard_named(found_keyboards(), "Scale").error().code, "absent");
  EXPECT_EQ(keyboard_named(found_keyboards(), "").error().code, "absent");
}

TEST_F(FoundPorts, TwoKeyboardsAlikeAreNeverGuessed) {
  machine_.keyboard("event3", "Bore gauge", "", kWholeKeyboard);
  machine_.keyboard("event4", "Bore gauge", "", kWholeKeyboard);
  const auto named = keyboard_named(found_keyboards(), "Bore gauge");
  ASSERT_FALSE(named);
  EXPECT_EQ(named.error().code, "ambiguous");
  EXPECT_NE(named.error().remedy.find("keys:" + dev("input/event3")), std::string::npos) << named.error().remedy;
}

}  // namespace
}  // namespace tenth::drivers
