#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "schema/profile/profile_file.hpp"

namespace tenth {
namespace {

const std::string kHead = "format = \"tenth-profile-1\"\ntitle = \"t\"\nspeaks = \"line\"\n";
const std::string kPattern = "[value]\npattern = '(?P<number>[0-9.]+)'\n";

Profile profile(const std::string& rest) {
  auto parsed = parse_profile(kHead + rest, "p.toml");
  EXPECT_TRUE(parsed) << parsed.error().message;
  return parsed.value();
}

/// "LINE: message; remedy" of what is wrong with a file whose fourth line is the first of `rest`.
std::string wrong(const std::string& rest, const std::string& head = kHead) {
  const auto parsed = parse_profile(head + rest, "p.toml");
  if (parsed) return "nothing";
  EXPECT_EQ(parsed.error().exit, Exit::refused);
  EXPECT_EQ(parsed.error().code, "profile");
  EXPECT_TRUE(parsed.error().message.starts_with("p.toml:")) << parsed.error().message;
  EXPECT_FALSE(parsed.error().remedy.empty());
  return parsed.error().message.substr(7);
}

TEST(ProfileFile, LeavesOutWhatIsAsUsual) {
  const Profile usual = profile(kPattern);
  EXPECT_EQ(usual.line, LineSettings());
  EXPECT_EQ(words(usual.line), "9600 baud, 8 bits, no parity, 1 stop bit");
  EXPECT_EQ(usual.frame.ends, (std::vector<std::string>{"\r\n", "\r", "\n"}));
  EXPECT_EQ(usual.frame.most, 64U);
  EXPECT_EQ(usual.frame.silence_ms, 0);
  EXPECT_FALSE(usual.value.unit);
  EXPECT_EQ(usual.value.units.at("in"), Unit::in);
  EXPECT_EQ(usual.status.good, (std::vector<std::string>{"", "K"}));
  EXPECT_EQ(usual.trigger.by, SentBy::button);
  EXPECT_FALSE(usual.trigger.settle_ms);
  EXPECT_FALSE(usual.range.any());
  EXPECT_FALSE(tells_unit(usual));
  EXPECT_FALSE(has_channels(usual));
}

TEST(ProfileFile, ReadsEveryKey) {
  const Profile all = profile(R"([line]
baud = 4800
bits = 7
parity = "even"
stop = 2
flow = "xon"
dtr = false
rts = false
[frame]
end = ["\u0003"]
start = "\u0002"
most = 20
silence_ms = 40
[value]
pattern = '(?:(?P<channel>[AB]) )?(?P<number>[0-9.]+)(?P<unit>I|M)?(?P<status>[A-Z])?'
unit = "in"
units = { I = "in", M = "mm" }
scale = "1/2000"
negate = true
[status]
good = [""]
why = { L = "battery low" }
[trigger]
by = "poll"
ask = "R\r"
every_ms = 100
within_ms = 80
settle_ms = 0
[limits]
range = ["-1 mm", 0.5]
)");
  EXPECT_EQ(words(all.line), "4800 baud, 7 bits, even parity, 2 stop bits");
  EXPECT_EQ(all.line.flow, Flow::xon);
  EXPECT_FALSE(all.line.dtr || all.line.rts);
  EXPECT_EQ(all.frame.ends, std::vector<std::string>{"\x03"});
  EXPECT_EQ(all.frame.start, "\x02");
  EXPECT_EQ(all.frame.most, 20U);
  EXPECT_EQ(all.frame.silence_ms, 40);
  EXPECT_EQ(all.value.unit, Unit::in);
  EXPECT_EQ(all.value.units.at("M"), Unit::mm);
  EXPECT_EQ(all.value.scale.denominator, 2000);
  EXPECT_TRUE(all.value.negate);
  EXPECT_EQ(all.status.why.at("L"), "battery low");
  EXPECT_EQ(all.trigger.ask, "R\r");
  EXPECT_EQ(all.trigger.every_ms, 100);
  EXPECT_EQ(all.trigger.within_ms, 80);
  EXPECT_EQ(all.trigger.settle_ms, 0);
  EXPECT_EQ(all.range.lower, Length::from_mm(-1));
  EXPECT_EQ(all.range.upper, Length::from_pm(12'700'000'000)) << "a bare number is in the profile's unit";
  EXPECT_TRUE(tells_unit(all));
  EXPECT_TRUE(has_channels(all));
}

TEST(ProfileFile, ReadsModbusAndKeys) {
  const auto modbus = parse_profile(
      "format = \"tenth-profile-1\"\nspeaks = \"modbus\"\n[modbus]\nunit_id = 7\ntable = \"holding\"\naddress = "
      "40\ntype = \"int16\"\norder = \"DCBA\"\ndecimals = 2\n",
      "m");
  ASSERT_TRUE(modbus);
  EXPECT_EQ(modbus->modbus.unit_id, 7);
  EXPECT_TRUE(modbus->modbus.holding);
  EXPECT_EQ(modbus->modbus.address, 40);
  EXPECT_EQ(modbus->modbus.type, ModbusForm::Type::int16);
  EXPECT_EQ(modbus->modbus.order, ModbusForm::Order::DCBA);
  EXPECT_EQ(modbus->modbus.decimals, 2);
  EXPECT_EQ(modbus->trigger.by, SentBy::poll) << "a register is never sent unasked";
  const auto keys = parse_profile("format = \"tenth-profile-1\"\nspeaks = \"keys\"\n[frame]\nend = \"enter\"\n" +
                                      kPattern + "[keys]\nKEY_COMMA = \".\"\n",
                                  "k");
  ASSERT_TRUE(keys);
  EXPECT_EQ(keys->frame.ends, std::vector<std::string>{"\n"});
  EXPECT_EQ(keys->key_map.at("KEY_COMMA"), ".");
}

TEST(ProfileFile, ScalesAreExact) {
  const auto scale = [](const std::string& text) {
    return profile(kPattern + "scale = \"" + text + "\"\n").value.scale;
  };
  EXPECT_EQ(scale("0.001").denominator, 1000);
  EXPECT_EQ(scale("2/4").numerator, 1);
  EXPECT_EQ(scale("2/4").denominator, 2);
  EXPECT_EQ(scale("25.4").numerator, 127);
  for (const char* const bad : {"0", "-1", "1/0", "1/-2", "x", "", "1/2/3", "0.0000000001"})
    EXPECT_NE(wrong(kPattern + "scale = \"" + bad + "\"\n").find("scale"), std::string::npos) << bad;
}

TEST(ProfileFile, SaysWhereItIsWrong) {
  EXPECT_TRUE(wrong(kPattern + "[trigger]\nask = \"R\\r\"\n").starts_with("7:7: [trigger] a gauge that is not polled"));
  EXPECT_TRUE(wrong(kPattern + "[trigger]\nby = \"button\"\nask = \"R\\r\"\n").starts_with("8:7:"));
  EXPECT_TRUE(wrong(kPattern + "speeks = 1\n").starts_with("6:1: [value] has no key 'speeks'"));
  EXPECT_TRUE(wrong("[lines]\nbaud = 1\n" + kPattern).starts_with("4:2: the profile has no key 'lines'"));
  EXPECT_TRUE(wrong("").ends_with("the profile has no pattern"));
  EXPECT_TRUE(wrong("[value]\npattern = '[0-9]+'\n").ends_with("the group `number` is missing"));
  EXPECT_NE(wrong("[value]\npattern = '(?P<number>[0-9]'\n").find("missing"), std::string::npos);
  EXPECT_NE(wrong("[value]\npattern = '(?P<number>1)(?P<colour>2)'\n").find("'colour'"), std::string::npos);
  EXPECT_NE(wrong("[line]\nbits = 9\n" + kPattern).find("7 to 8"), std::string::npos);
  EXPECT_NE(wrong("[frame]\nmost = 257\n" + kPattern).find("256"), std::string::npos);
  EXPECT_NE(wrong("[modbus]\naddress = 1\n" + kPattern).find("only for modbus"), std::string::npos);
  EXPECT_NE(wrong(kPattern + "[limits]\nrange = [1, 2]\n").find("unit"), std::string::npos) << "of a bare number";
  EXPECT_NE(wrong(kPattern + "[limits]\nrange = [\"2 mm\", \"1 mm\"]\n").find("above"), std::string::npos);
}

TEST(ProfileFile, SaysWhatItsHeadMustBe) {
  EXPECT_NE(wrong("", "format = \"tenth-profile-2\"\nspeaks = \"bcd13\"\n").find("format"), std::string::npos);
  EXPECT_NE(wrong("", "speaks = \"bcd13\"\n").find("needs format"), std::string::npos);
  EXPECT_NE(wrong("", "format = \"tenth-profile-1\"\n").find("needs speaks"), std::string::npos);
  EXPECT_NE(wrong("", "format = \"tenth-profile-1\"\nspeaks = \"lines\"\n").find("speaks cannot be 'lines'"),
            std::string::npos);
  EXPECT_NE(
      wrong("[value]\npattern = 'x'\n", "format = \"tenth-profile-1\"\nspeaks = \"bcd13\"\n").find("a pattern is only"),
      std::string::npos);
  EXPECT_NE(wrong("[frame]\nmost = 9\n", "format = \"tenth-profile-1\"\nspeaks = \"bin24\"\n")
                .find("only for line, query and keys"),
            std::string::npos);
}

/// The page shows every key: what it shows must be a profile.
TEST(ProfileFile, ThePageShowsAProfile) {
  std::ifstream page(TENTH_SOURCE_DIR "/schema/profile.md");
  std::stringstream whole;
  whole << page.rdbuf();
  std::string text = whole.str();
  text = text.substr(text.find("```toml\n") + 8);
  text = text.substr(0, text.find("```"));
  EXPECT_TRUE(wrong("", text).starts_with("28:7:")) << "`ask` without poll: " << wrong("", text);
}

}  // namespace
}  // namespace tenth
