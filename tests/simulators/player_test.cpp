#include "simulators/player.hpp"

#include <gtest/gtest.h>

#include "bench.hpp"

namespace tenth::simulators {
namespace {

constexpr auto kBench = R"(title = "Bench"
[[gauge]]
name = "bore"
path = "bore"
speaks = "bcd13"
unit = "in"
zero = "3.7800"
offset = "0.0001"
values = ["3.7802", "3.7799"]
[[gauge]]
name = "mic"
path = "mic"
speaks = "line"
)";

class Playing : public testing::Test {
 protected:
  std::string done(const std::string& words) {
    const auto answer = player_.perform(parse_act(words).value(), Time{});
    return answer ? answer->text : "error: " + answer.error();
  }

  Folder folder_;
  Scenario scenario_ = parse_scenario(kBench, "bench.toml").value();
  Player player_ = Player::open(scenario_, folder_ / "", Time{}).value();
};

// value − zero + offset: 3.7802 − 3.7800 + 0.0001 = 0.0003, and so on.
TEST_F(Playing, PressesTheListOneAfterAnother) {
  EXPECT_EQ(done("press bore"), R"(FFFF000000341\x0D)");
  EXPECT_EQ(done("press bore 3.7810"), R"(FFFF000001141\x0D)") << "a value in between leaves the list alone";
  EXPECT_EQ(done("press bore"), R"(FFFF000000041\x0D)");
  EXPECT_EQ(done("press bore"), "error: bore has no more values: press it with one");
  const Reader reader(folder_ / "bore");
  EXPECT_EQ(reader.read(42), "FFFF000000341\rFFFF000001141\rFFFF000000041\r");
}

TEST_F(Playing, DriftMovesTheZeroFromThenOn) {
  EXPECT_EQ(done("drift bore -0.0002"), "");
  EXPECT_EQ(done("press bore 3.7800"), R"(FFFF800000141\x0D)");
  EXPECT_EQ(done("drift bore 0.0001"), "");
  EXPECT_EQ(done("press bore 3.7800"), R"(FFFF000000041\x0D)");
}

TEST_F(Playing, SpoilsAFrameAsTold) {
  EXPECT_EQ(done("press mic 83.012 half"), "83.");
  EXPECT_EQ(done("press mic 83.012 doubled"), R"(83.0012\x0D)");
  EXPECT_EQ(done("press mic 83.012 noisy"), R"(\xFF\x80\x1383.012\x0D)");
  EXPECT_EQ(done("press mic 25.4 in in"), R"(1.0000\x0D)");
}

TEST_F(Playing, SendsRawBytes) {
  EXPECT_EQ(done(R"(raw mic E \xFF\\)"), R"(E \xFF\x5C)");
  const Reader reader(folder_ / "mic");
  EXPECT_EQ(reader.read(4), "E \xFF\\");
}

TEST_F(Playing, HangsUpAndReturnsUnderTheSamePath) {
  const Reader before(folder_ / "mic");
  EXPECT_EQ(done("hangup mic"), "");
  EXPECT_TRUE(hung_up(before.descriptor()));
  EXPECT_FALSE(std::filesystem::exists(folder_ / "mic"));
  EXPECT_EQ(done("press mic 1"), "error: mic is hung up: return it first");
  EXPECT_EQ(done("hangup mic"), "error: mic is hung up already");
  EXPECT_EQ(done("return mic").substr(0, 9), "/dev/pts/");
  EXPECT_EQ(done("return mic"), "error: mic is there already");
  EXPECT_EQ(done("press mic 1"), R"(1.000\x0D)");
  const Reader after(folder_ / "mic");
  EXPECT_EQ(after.read(6), "1.000\r");
}

TEST_F(Playing, APressThatCannotBeSentIsNotUsedUp) {
  done("hangup bore");
  EXPECT_EQ(done("press bore"), "error: bore is hung up: return it first");
  done("return bore");
  EXPECT_EQ(done("press bore"), R"(FFFF000000341\x0D)");
}

TEST_F(Playing, EveryGaugeHasNoiseOfItsOwn) {
  EXPECT_NE(done("noise bore 20"), done("noise mic 20"));
}

TEST_F(Playing, SwitchedItShowsTheOtherUnitUntilSwitchedBack) {
  EXPECT_EQ(done("switch mic in"), "");
  EXPECT_EQ(done("press mic 25.4"), R"(1.0000\x0D)");
  EXPECT_EQ(done("press mic 25.4 in mm"), R"(25.400\x0D)") << "a press has the last word";
  EXPECT_EQ(done("switch mic mm"), "");
  EXPECT_EQ(done("press mic 25.4"), R"(25.400\x0D)");
}

TEST_F(Playing, RocksByTheUsualAmplitudeOfItsUnit) {
  const auto turned = [&](const char* gauge) {
    done("rock " + std::string(gauge) + " 3.79");
    done("stream " + std::string(gauge) + " start");
    const Reader reader(folder_ / gauge);
    player_.run(Time{} + std::chrono::seconds(1));  // the end of a swing
    done("stream " + std::string(gauge) + " stop");
    return reader.read(gauge == std::string("bore") ? 14 : 6);
  };
  EXPECT_EQ(turned("bore"), "FFFF000030141\r") << "3.79 + 0.02 - 3.78 + 0.0001 = 0.0301";
  EXPECT_EQ(turned("mic"), "4.290\r") << "3.79 + 0.5";
}

TEST_F(Playing, RefusesWhatTheGaugeCannotDo) {
  EXPECT_EQ(done("press bore 3.78 status L"), "error: bore: only a line has a status: leave it out");
}

TEST_F(Playing, SaysWhenAPortIsFull) {
  std::string answer;
  for (int i = 0; i < 2000 && !answer.starts_with("error"); ++i) answer = done("noise mic 100");
  EXPECT_EQ(answer.substr(0, 17), "error: mic: /dev/");
  EXPECT_NE(answer.find(" is full: nobody reads it"), std::string::npos);
}

TEST_F(Playing, WhatCannotOpenNamesItsGauge) {
  const auto again = Player::open(scenario_, folder_ / "", Time{});
  EXPECT_EQ(again.error().substr(0, 6), "bore: ");
  EXPECT_NE(again.error().find("is there already"), std::string::npos);
}

TEST_F(Playing, SaysWhatCannotBeShown) {
  EXPECT_EQ(done("press bore 999"), "error: bore: the value is too large for the digits of a bcd13 frame");
  EXPECT_EQ(done("press height 1"), "error: no gauge 'height'");
}

}  // namespace
}  // namespace tenth::simulators
