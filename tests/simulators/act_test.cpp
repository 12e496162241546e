#include "simulators/act.hpp"

#include <gtest/gtest.h>

#include <ostream>

namespace tenth::simulators {
namespace {

template <class Kind>
Kind act(std::string_view words) {
  return std::get<Kind>(parse_act(words).value());
}

TEST(ParseAct, Press) {
  EXPECT_EQ(act<Press>("press bore").gauge, "bore");
  EXPECT_FALSE(act<Press>("press bore").value);
  EXPECT_EQ(act<Press>("  press\tbore   83.012 ").value, Amount{83'012'000});
  EXPECT_EQ(act<Press>("press bore 83.012 in in").unit, Unit::in);
  EXPECT_EQ(act<Press>("press bore in mm").unit, Unit::mm);
  EXPECT_EQ(act<Press>("press bore half").slip, Slip::half);
  EXPECT_EQ(act<Press>("press bore 1 doubled").slip, Slip::doubled);
  EXPECT_EQ(act<Press>("press bore 1 in in noisy").slip, Slip::noisy);
  EXPECT_EQ(act<Press>("press bore").slip, Slip::none);
}

TEST(ParseAct, PressWithAStatus) {
  EXPECT_EQ(act<Press>("press bore status L").status, "L");
  EXPECT_EQ(act<Press>("press bore 1 in mm status half dropped").status, "half");
  EXPECT_EQ(act<Press>("press bore 1 status L dropped").slip, Slip::dropped);
  EXPECT_FALSE(act<Press>("press bore").status);
}

TEST(ParseAct, Motions) {
  EXPECT_EQ(act<Hold>("hold bore 83.5").value, Amount{83'500'000});
  EXPECT_EQ(act<Approach>("approach bore 83").over, std::chrono::milliseconds(500));
  EXPECT_EQ(act<Approach>("approach bore 83 over_ms 40").over, std::chrono::milliseconds(40));
  const auto usual = act<Rock>("rock bore 83.012");
  EXPECT_EQ(usual.value, Amount{83'012'000});
  EXPECT_EQ(usual.passes, 4);
  EXPECT_FALSE(usual.amplitude);
  EXPECT_EQ(usual.period, std::chrono::seconds(1));
  EXPECT_EQ(usual.noise, Amount{});
  const auto told = act<Rock>("rock bore 83.012 passes 3 amplitude 0.2 period_ms 700 noise 0.0005");
  EXPECT_EQ(told.passes, 3);
  EXPECT_EQ(told.amplitude, Amount{200'000});
  EXPECT_EQ(told.period, std::chrono::milliseconds(700));
  EXPECT_EQ(told.noise, Amount{500});
}

TEST(ParseAct, WhatGaugesSendByThemselves) {
  EXPECT_TRUE(act<Stream>("stream bore start").on);
  EXPECT_FALSE(act<Stream>("stream bore stop").on);
  EXPECT_EQ(act<Noise>("noise bore 40").count, 40);
  EXPECT_EQ(act<Endless>("endless bore 70000").count, 70'000);
  const auto flood = act<Flood>("flood bore 10000000 3");
  EXPECT_EQ(flood.rate, 10'000'000);
  EXPECT_EQ(flood.seconds, 3);
  EXPECT_FALSE(flood.frames);
  EXPECT_TRUE(act<Flood>("flood bore 1 1 frames").frames);
}

TEST(ParseAct, WhatGoesWrongWithAnswers) {
  EXPECT_EQ(act<Spoil>("spoil bore half").slip, Slip::half);
  EXPECT_EQ(act<Spoil>("spoil bore doubled").slip, Slip::doubled);
  EXPECT_EQ(act<Spoil>("spoil bore dropped").slip, Slip::dropped);
  EXPECT_EQ(act<Spoil>("spoil bore noisy").slip, Slip::noisy);
  EXPECT_EQ(act<Spoil>("spoil bore crc").slip, Slip::crc);
  EXPECT_EQ(act<Spoil>("spoil bore transaction").slip, Slip::transaction);
  EXPECT_EQ(act<Spoil>("spoil bore exception 6").slip, Slip::exception);
  EXPECT_EQ(act<Spoil>("spoil bore exception 6").code, 6);
  EXPECT_TRUE(act<Mute>("mute bore").on);
  EXPECT_FALSE(act<Mute>("unmute bore").on);
  EXPECT_EQ(act<Delay>("delay bore 900").time, std::chrono::milliseconds(900));
  EXPECT_EQ(act<Switch>("switch bore in").unit, Unit::in);
}

TEST(ParseAct, RawBytes) {
  EXPECT_EQ(act<Raw>("raw bore 83.012").bytes, "83.012");
  EXPECT_EQ(act<Raw>(R"(raw bore a\r\n\t\\\x00\xfF)").bytes, std::string("a\r\n\t\\\0\xFF", 7));
  EXPECT_EQ(act<Raw>("raw bore  +1 2 ").bytes, " +1 2 ") << "blanks after the first are sent too";
}

TEST(ParseAct, TheOthers) {
  EXPECT_EQ(act<Drift>("drift bore -0.0002").by, Amount{-200});
  EXPECT_EQ(act<HangUp>("hangup bore").gauge, "bore");
  EXPECT_EQ(act<Return>("return bore").gauge, "bore");
  EXPECT_EQ(act<Wait>("wait 250").time, std::chrono::milliseconds(250));
  EXPECT_FALSE(act<Wait>("wait told").time);
}

TEST(ParseAct, NamesItsGauge) {
  EXPECT_EQ(gauge_of(Press{.gauge = "a"}), "a");
  EXPECT_EQ(gauge_of(Raw{"b", ""}), "b");
  EXPECT_EQ(gauge_of(Wait{}), "");
}

struct Wrong {
  const char *words, *right;
};

void PrintTo(const Wrong& wrong, std::ostream* out) {
  *out << testing::PrintToString(wrong.words);
}

class WrongAct : public testing::TestWithParam<Wrong> {};

TEST_P(WrongAct, IsToldWhatWouldBeRight) {
  const auto read = parse_act(GetParam().words);
  ASSERT_FALSE(read);
  EXPECT_NE(read.error().find(GetParam().right), std::string::npos) << read.error();
}

INSTANTIATE_TEST_SUITE_P(
    Words, WrongAct,
    testing::Values(
        Wrong{"", "write press, noise, "}, Wrong{"pres bore", "'pres' is not understood"},
        Wrong{"press", "press GAUGE [VALUE]"}, Wrong{"press bore 8x", "'8x' is no value"},
        Wrong{"press bore 1 in cm", "'cm' is no unit"}, Wrong{"press bore 1 in", "it breaks off: write press GAUGE"},
        Wrong{"press bore 1 loudly", "'loudly' is not understood"}, Wrong{"press bore half 1", "'1' is not understood"},
        Wrong{"raw bore", "raw GAUGE BYTES"}, Wrong{"raw bore a\\", "\\xHH"}, Wrong{"raw bore \\x4", "\\xHH"},
        Wrong{"raw bore \\q", "\\q"}, Wrong{"drift bore", "drift GAUGE AMOUNT"},
        Wrong{"drift bore x", "'x' is no value"}, Wrong{"hangup", "hangup GAUGE"}, Wrong{"return a b", "return GAUGE"},
        Wrong{"wait", "wait MILLISECONDS or wait told"}, Wrong{"wait -1", "'-1' is not understood"},
        Wrong{"press bore status", "it breaks off"}, Wrong{"hold bore", "hold GAUGE VALUE"},
        Wrong{"approach bore 1 over 5", "'over' is not"}, Wrong{"approach bore 1 over_ms 0", "from 1 to 3600000"},
        Wrong{"rock bore", "rock GAUGE VALUE [passes N] [amplitude A] [period_ms P] [noise N]"},
        Wrong{"rock bore 0", "the diameter itself"}, Wrong{"rock bore -1", "the diameter itself"},
        Wrong{"rock bore 1 passes 0", "from 1 to 1000"}, Wrong{"rock bore 1 amplitude 0", "above 0"},
        Wrong{"rock bore 1 noise -1", "0 or more"}, Wrong{"rock bore 1 speed 2", "'speed' is not"},
        Wrong{"stream bore", "stream GAUGE start|stop"}, Wrong{"stream bore on", "'on' is not understood"},
        Wrong{"noise bore 0", "from 1 to"}, Wrong{"flood bore 9", "flood GAUGE BYTES_PER_SECOND SECONDS"},
        Wrong{"flood bore 9 61", "from 1 to 60"}, Wrong{"flood bore 9 1 lines", "'lines' is not"},
        Wrong{"endless bore", "endless GAUGE BYTES"}, Wrong{"spoil bore", "spoil GAUGE half|"},
        Wrong{"spoil bore badly", "'badly' is not understood"}, Wrong{"spoil bore exception", "exception CODE"},
        Wrong{"spoil bore exception 256", "from 1 to 255"}, Wrong{"mute", "mute GAUGE"},
        Wrong{"delay bore soon", "'soon' is not understood"}, Wrong{"switch bore cm", "'cm' is no unit"},
        Wrong{"wait 5s", "'5s' is not understood"}, Wrong{"wait 3600001", "wait MILLISECONDS"}));

}  // namespace
}  // namespace tenth::simulators
