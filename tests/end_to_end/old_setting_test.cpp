// A setting grows old, and a gauge does not wait for its master for ever.
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/faked_clock.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

using std::chrono::hours;
using std::chrono::seconds;

class OldSetting : public FakedClock {
 protected:
  void SetUp() override {
    FakedClock::SetUp();
    engine(inline_four);
    gauge("bg", {"--unit", "mm", "--reads", "deviation"});
    done({"at", "bore", "1", "middle", "thrust"});
  }
  void set_on_master() {
    done({"master", "bg", "86.000"});
    cable("bg").send(line("0.000"));
    watch_->next("setting");
  }
};

TEST_F(OldSetting, IsADoubtAfterTwelveHours) {
  set_on_master();
  later(hours(12) - seconds(30));
  EXPECT_EQ(doubts_of(press("bg", line("0.010"))), "");
  later(hours(12) + seconds(1));
  const json old = press("bg", line("0.010"));
  EXPECT_EQ(old["state"], "suspect");
  EXPECT_EQ(doubts_of(old), "setting_old");
  EXPECT_EQ(old["size_mm"], 86.010) << "what the size would be is told";
  set_on_master();
  EXPECT_EQ(doubts_of(press("bg", line("0.010"))), "");
}

TEST_F(OldSetting, KeepAnswersIt) {
  set_on_master();
  later(hours(13));
  const json old = press("bg", line("0.010"));
  EXPECT_EQ(doubts_of(old), "setting_old");
  done({"keep", old["seq"].dump(), "--reason", "checked on the ring since"});
  EXPECT_EQ(asked({"readings"})[0]["seq"], old["seq"]);
}

class ShortLived : public OldSetting {
  std::string config() const override { return "[intake]\nsettle_ms = 0\nsetting_life_h = 2\n"; }
};

TEST_F(ShortLived, ItsLifeIsConfigured) {
  set_on_master();
  later(hours(2) - seconds(30));
  EXPECT_EQ(doubts_of(press("bg", line("0.010"))), "");
  later(hours(2) + seconds(1));
  EXPECT_EQ(doubts_of(press("bg", line("0.010"))), "setting_old");
}

using Waiting = OldSetting;

TEST_F(Waiting, EndsAfterTwoMinutesAndSaysSo) {
  const auto awaits = [] { return pick(asked({"status"})["gauges"], {{"name", "bg"}})["awaits"]; };
  faster(40);
  const auto began = std::chrono::steady_clock::now();
  done({"master", "bg", "86.000"});
  EXPECT_EQ(awaits(), "master");
  const json told = watch_->next("fault", [](const json& event) { return event["gauge"] == "bg"; });
  EXPECT_GE(std::chrono::steady_clock::now() - began, std::chrono::milliseconds(2900)) << "120 s, 40 times as fast";
  EXPECT_EQ(told["why"], "not_set");
  EXPECT_NE(told["text"].get<std::string>().find("120 s"), std::string::npos) << told;
  EXPECT_TRUE(awaits().is_null());
  EXPECT_EQ(entries_of_kind(daemon_.ledger(), "setting").size(), 0U);
  EXPECT_EQ(doubts_of(press("bg", line("0.000"))), "no_setting") << "a late frame is no setting";
}

TEST_F(Waiting, AFrameJustInTimeIsTheSetting) {
  done({"master", "bg", "86.000"});
  later(seconds(110));
  cable("bg").send(line("0.002"));
  EXPECT_EQ(watch_->next("setting")["shown_mm"], 0.002);
  later(seconds(300));
  EXPECT_EQ(press("bg", line("0.012"))["size_mm"], 86.010);
  EXPECT_FALSE(watch_->heard("fault"));
}

TEST_F(Waiting, ALateFrameIsNoSettingEvenWhereItWakesTheDaemon) {
  done({"master", "bg", "86.000"});
  later(seconds(121));
  EXPECT_EQ(doubts_of(press("bg", line("0.000"))), "no_setting");
  watch_->next("fault", [](const json& event) { return event["why"] == "not_set"; });
}

}  // namespace
}  // namespace acceptance
