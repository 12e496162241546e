// What survives a restart, a kill and a power cut.
#include <set>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Restart : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    done({"operator", "add", "Ada"});
    done({"operator", "use", "Ada"});
  }
  void again() {
    daemon_.start();
    restart_watch();
    for (const auto& [name, cable] : cables_) wait_open(name);
  }
};

TEST_F(Restart, GoesOnAtTheSamePlace) {
  gauge("g", {"--unit", "mm"});
  gauge("h", {"--unit", "mm"});
  done({"round", "bore"});
  done({"round", "main_bearing", "--gauge", "h"});
  press("g", line("86.010"));
  press("h", line("54.040"));
  EXPECT_EQ(daemon_.stop(), 0);
  again();
  EXPECT_EQ(asked({"status"})["engine"], "E1");
  const json reading = press("g", line("86.011"));
  EXPECT_EQ(place_of(reading), "bore/1/top/pin");
  EXPECT_EQ(reading["operator"], "Ada");
  EXPECT_EQ(reading["state"], "kept") << reading;
  EXPECT_EQ(place_of(press("h", line("54.041"))), "main_bearing/1/oblique");
  EXPECT_EQ(place_of(press("g", line("86.011"))), "bore/1/middle/thrust");
  done({"back"});
}

TEST_F(Restart, KeepsTheSettingOfAComparator) {
  gauge("dial", {"--unit", "mm", "--reads", "deviation", "--measures", "inside"});
  done({"master", "dial", "86.000"});
  cable("dial").send(line("0.002"));
  watch_->next("setting");
  daemon_.stop();
  again();
  const json reading = press_at({"bore", "1", "top", "pin"}, "dial", line("0.012"));
  EXPECT_EQ(reading["size_mm"], 86.010);
  EXPECT_EQ(reading["state"], "kept") << reading;
}

TEST_F(Restart, KeepsStagesAndAlerts) {
  gauge("g", {"--unit", "mm"});
  press_at({"ring_gap_top", "1"}, "g", line("0.600"));
  done({"stage", "as left", "bore"});
  const json check = asked({"check"}, 1);
  const json alerts = asked({"alerts"});
  ASSERT_FALSE(alerts.empty());
  daemon_.stop();
  again();
  EXPECT_EQ(asked({"check"}, 1), check);
  EXPECT_EQ(asked({"alerts"}), alerts);
}

TEST_F(Restart, AfterAKillNothingAnnouncedIsLost) {
  gauge("g", {"--unit", "mm"});
  done({"at", "bore", "1", "top", "pin"});
  std::vector<json> announced;
  for (int round = 0; round < 3; ++round) {
    std::string burst;
    for (int i = 0; i < 150; ++i) burst += line("86.010");
    cable("g").send(burst);
    for (int i = 0; i < 40; ++i) announced.push_back(watch_->next("reading"));
    daemon_.kill();
    again();
  }
  const json stored = asked({"readings", "--all"});
  std::set<std::pair<int, std::string>> rows;
  for (const json& one : stored) rows.emplace(one["seq"], one["hash"]);
  for (const json& one : announced) EXPECT_EQ(rows.count({one["seq"], one["hash"]}), 1U) << one;
  EXPECT_EQ(asked({"audit", "--ledger", daemon_.ledger()})["ok"], true);
  const json reading = press("g", line("86.010"));
  EXPECT_EQ(place_of(reading), "bore/1/top/pin");
}

TEST_F(Restart, AfterAKillTheRoundStandsAfterTheLastStoredReading) {
  gauge("g", {"--unit", "mm"});
  done({"round", "bore"});
  press("g", line("86.010"));
  press("g", line("86.010"));
  daemon_.kill();
  again();
  EXPECT_EQ(place_of(press("g", line("86.010"))), "bore/1/middle/thrust");
}

TEST_F(Restart, BytesThatCameMeanwhileAreRead) {
  gauge("g", {"--unit", "mm"});
  done({"at", "bore", "1", "top", "pin"});
  daemon_.stop();
  cable("g").send(line("86.010") + line("86.011"));
  daemon_.start();
  wait_open("g");
  restart_watch();
  cable("g").send(line("86.012"));
  watch_->next("reading", [](const json& event) { return event["text"] == "86.012"; });
  const json all = asked({"readings", "--all"});
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0]["text"], "86.010");
  EXPECT_EQ(all[1]["text"], "86.011");
  EXPECT_EQ(all[2]["state"], "kept");
  // Whether the first frame is whole cannot be known: it may be kept back, and for that reason only.
  EXPECT_TRUE(doubts_of(all[0]) == "" || doubts_of(all[0]) == "damaged") << all[0];
}

}  // namespace
}  // namespace acceptance
