#include "drivers/listening.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

class ListeningTest : public testing::Test {
 protected:
  static std::vector<Tried> all_shipped() {
    std::vector<Tried> all;
    for (const ShippedProfile& each : shipped_profiles())
      all.push_back({std::string(each.name), shipped(std::string(each.name))});
    return all;
  }
  bool hear(std::string_view burst) { return listening_.take(sound(burst)); }
  std::vector<std::string> fitting() const {
    std::vector<std::string> names;
    for (const Candidate& each : listening_.candidates())
      if (each.fits()) names.push_back(each.name);
    return names;
  }

  Listening listening_{all_shipped()};
};

TEST_F(ListeningTest, BeginsWithTheUsualSettingAndKnowsNothing) {
  EXPECT_EQ(listening_.line(), LineSettings());
  EXPECT_TRUE(listening_.candidates().empty());
  EXPECT_FALSE(listening_.done());
  EXPECT_TRUE(listening_.take({})) << "a pause is no burst";
  EXPECT_EQ(listening_.bytes(), 0U);
}

TEST_F(ListeningTest, ThreePressesOfAPlainGaugeAreEnough) {
  for (const char* const press : {"83.0104\r\n", "83.0111\r\n", "83.0098\r\n"}) {
    EXPECT_FALSE(listening_.done());
    EXPECT_TRUE(hear(press));
  }
  EXPECT_TRUE(listening_.done());
  const auto best = listening_.candidates().at(0);
  EXPECT_EQ(best.name, "line") << "the plain form before its variants";
  EXPECT_EQ(best.numbers, (std::vector<std::string>{"83.0104", "83.0111", "83.0098"}));
  EXPECT_FALSE(best.unit_named);
  EXPECT_TRUE(best.channels.empty());
  EXPECT_EQ(listening_.bytes(), 27U);
}

TEST_F(ListeningTest, PrefersAProfileThatHasTheSettingItWasHeardAt) {
  hear("\xB8\xB3\xAE");  // at 9600 8N1
  ASSERT_EQ(words(listening_.line()), "4800 baud, 7 bits, even parity, 2 stop bits");
  EXPECT_TRUE(hear("83.0104\r\n"));
  EXPECT_EQ(listening_.candidates().at(0).name, "line-4800-7e2");
  EXPECT_TRUE(listening_.candidates().at(0).own_line);
}

TEST_F(ListeningTest, WhatNobodyUnderstandsBeginsTheCountAnew) {
  hear("83.0104\r\n");
  hear("83.0111\r\n");
  EXPECT_FALSE(hear("\xB8\xB3\xAE"));
  EXPECT_TRUE(hear("83.0104\r\n"));
  EXPECT_FALSE(listening_.done()) << "one press at the setting that is tried now";
}

TEST_F(ListeningTest, SaysThatNoProfileHasTheSetting) {
  hear("\xB8\xB3\xAE");
  hear("\xB8\xB3\xAE");
  ASSERT_EQ(words(listening_.line()), "9600 baud, 7 bits, even parity, 1 stop bit");
  EXPECT_TRUE(hear("83.0104\r\n"));
  EXPECT_EQ(listening_.candidates().at(0).name, "line");
  EXPECT_FALSE(listening_.candidates().at(0).own_line) << "its speed would have to be written into a copy";
}

TEST_F(ListeningTest, NamesTheUnitAndTheChannels) {
  hear("A 83.0104 mm\r");
  hear("B 60.0031 mm\rA 83.0111 mm\r");
  const auto all = listening_.candidates();
  const auto box =
      std::find_if(all.begin(), all.end(), [](const Candidate& each) { return each.name == "line-channels"; });
  ASSERT_NE(box, all.end());
  EXPECT_TRUE(box->fits() && box->unit_named);
  EXPECT_EQ(box->channels, (std::vector<std::string>{"A", "B"}));
  EXPECT_EQ(box->numbers.at(1), "60.0031 mm");
}

TEST_F(ListeningTest, FramesOfDigitsAreNoNumberOfALine) {
  hear("FFFF008301040\r");
  EXPECT_EQ(fitting(), std::vector<std::string>{"bcd13"});
}

TEST_F(ListeningTest, WarnsWhereTwoFormatsFit) {
  hear("0004\r");
  EXPECT_EQ(fitting().at(0), "line");
  Listening other(all_shipped());
  other.take(sound("000083\r"));
  const auto all = other.candidates();
  const auto fits = std::count_if(all.begin(), all.end(), [](const Candidate& each) { return each.fits(); });
  EXPECT_EQ(fits, 1) << "six digits are no number of a line: it takes four before the point";
  EXPECT_EQ(all.at(0).name, "bin24");
}

TEST_F(ListeningTest, ABurstThatNothingExplainsMovesOnToTheNextSetting) {
  hear("83.0104\r");
  EXPECT_FALSE(hear("\x80\xF8\x06\r"));
  EXPECT_NE(listening_.line(), LineSettings());
  EXPECT_EQ(listening_.line().bits, 7);
  EXPECT_TRUE(listening_.candidates().empty()) << "what came under another setting counts no more";
  EXPECT_EQ(listening_.bursts().size(), 2U) << "but is shown";
  for (const char* const press : {"83.0104\r", "83.0111\r", "83.0098\r"}) hear(press);
  EXPECT_TRUE(listening_.done());
  EXPECT_EQ(listening_.candidates().at(0).line, listening_.line());
}

TEST_F(ListeningTest, TriesEverySettingAndBeginsAgain) {
  std::vector<LineSettings> tried;
  do {
    tried.push_back(listening_.line());
    ASSERT_LT(tried.size(), 50U);
    hear("\xFF\r");
  } while (listening_.line() != LineSettings());
  EXPECT_GE(tried.size(), 9U);
  for (const ShippedProfile& each : shipped_profiles()) {
    const LineSettings wanted = shipped(std::string(each.name)).line;
    const auto heard = [&](const LineSettings& line) {
      return line.baud == wanted.baud && line.bits == wanted.bits && line.parity == wanted.parity;
    };
    EXPECT_TRUE(std::any_of(tried.begin(), tried.end(), heard)) << each.name;
  }
}

TEST_F(ListeningTest, AFaultInABurstIsNoFit) {
  EXPECT_FALSE(hear("83.0104\r83.x\r"));
  EXPECT_FALSE(listening_.take({{'8', true}, {'3', false}, {'\r', false}})) << "a damaged byte: the wrong parity";
  EXPECT_FALSE(hear("83.01")) << "half a frame";
}

TEST_F(ListeningTest, AStreamIsNoButton) {
  std::string second;
  for (int i = 0; i < 10; ++i) second += "83.010" + std::to_string(i) + "\r";
  hear(second);
  EXPECT_EQ(listening_.candidates().at(0).name, "line-stream");
  EXPECT_TRUE(listening_.candidates().at(0).as_sent);
}

TEST_F(ListeningTest, NeverTriesWhatHasToBeAsked) {
  hear("83.0104\r\n");
  for (const Candidate& each : listening_.candidates()) {
    const Profile profile = shipped(each.name);
    EXPECT_TRUE(profile.trigger.ask.empty() && profile.speaks != Speaks::query && profile.speaks != Speaks::modbus)
        << each.name;
  }
}

TEST_F(ListeningTest, LongBurstsAreShownByTheirBeginning) {
  hear(std::string(100'000, '8'));
  EXPECT_EQ(listening_.bytes(), 100'000U);
  EXPECT_EQ(listening_.bursts().at(0).size(), 256U);
}

}  // namespace
}  // namespace tenth::drivers
