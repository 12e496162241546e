#include "simulators/gauge.hpp"

#include <gtest/gtest.h>

namespace tenth::simulators {
namespace {

Gauge gauge(Speaks speaks, bool tcp = false) {
  Gauge made;
  made.name = "g";
  made.display.speaks = speaks;
  if (tcp) made.tcp = Address{"127.0.0.1", 4001};
  return made;
}

/// The acts of these that the gauge refuses.
std::vector<std::string> refused(const Gauge& gauge) {
  std::vector<std::string> found;
  for (const std::string words : {"press g",
                                  "press g status L",
                                  "raw g x",
                                  "noise g 1",
                                  "flood g 1 1",
                                  "flood g 1 1 frames",
                                  "endless g 1",
                                  "spoil g half",
                                  "spoil g crc",
                                  "spoil g transaction",
                                  "spoil g exception 1",
                                  "mute g",
                                  "delay g 1",
                                  "switch g mm",
                                  "drift g 1",
                                  "stream g start",
                                  "hold g 1",
                                  "approach g 1",
                                  "rock g 1",
                                  "hangup g",
                                  "return g"}) {
    if (!can_do(gauge, parse_act(words).value())) found.push_back(words);
  }
  return found;
}

using Words = std::vector<std::string>;

TEST(CanDo, ALine) {
  EXPECT_EQ(refused(gauge(Speaks::line)),
            (Words{"spoil g crc", "spoil g transaction", "spoil g exception 1", "delay g 1"}));
}

TEST(CanDo, FramesOfDigitsHaveNoStatus) {
  const Words both = {"press g status L", "spoil g crc", "spoil g transaction", "spoil g exception 1", "delay g 1"};
  EXPECT_EQ(refused(gauge(Speaks::bcd13)), both);
  EXPECT_EQ(refused(gauge(Speaks::bin24)), both);
}

TEST(CanDo, AQueryDoesNotStream) {
  EXPECT_EQ(refused(gauge(Speaks::query)),
            (Words{"press g status L", "spoil g crc", "spoil g transaction", "spoil g exception 1", "stream g start"}));
}

TEST(CanDo, ModbusSendsNothingByItself) {
  const Words both = {"press g", "press g status L", "flood g 1 1 frames"};
  auto rtu = both, tcp = both;
  rtu.insert(rtu.end(), {"spoil g transaction", "stream g start"});
  tcp.insert(tcp.end(), {"spoil g crc", "stream g start"});
  EXPECT_EQ(refused(gauge(Speaks::modbus)), rtu);
  EXPECT_EQ(refused(gauge(Speaks::modbus, true)), tcp);
}

TEST(CanDo, SaysWhoAndWhatWouldBeRight) {
  EXPECT_EQ(can_do(gauge(Speaks::modbus), Press{.gauge = "g"}).error(),
            "g: a modbus gauge has no button: it answers when it is asked");
}

}  // namespace
}  // namespace tenth::simulators
