// Masters with certificates, a gauge set in another gauge, and a setting whose master was another size.
#include <fstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Master : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("dial", {"--unit", "mm", "--reads", "deviation", "--measures", "inside", "--uncertainty", "0.003"});
    gauge("mic", {"--unit", "mm", "--measures", "outside", "--uncertainty", "0.004"});
  }
  json set(const Words& words, const std::string& shown) {
    done(words);
    cable("dial").send(line(shown));
    return watch_->next("setting");
  }
  json at_bore(const std::string& index, const std::string& shown) {
    return press_at({"bore", index, "middle", "pin"}, "dial", line(shown));
  }
  json at_piston(const std::string& shown) { return press_at({"piston", "1"}, "mic", line(shown)); }
  json reading(const json& seq) { return reading_of(asked({"readings", "--all"}), seq); }
  json bore(const std::string& label, int status) {
    return pick(asked({"check"}, status)["features"], {{"feature", "bore"}, {"label", label}});
  }
};

TEST_F(Master, ARingIsUsedByItsName) {
  done({"masters", "add", "R86", "86.0012", "--certificate", "C-1207", "--due", "2099-03-01", "--uncertainty",
        "0.0008"});
  const json ring = pick(asked({"masters", "list"}), {{"name", "R86"}});
  EXPECT_EQ(ring["size_mm"], 86.0012);
  EXPECT_EQ(ring["certificate"], "C-1207");
  EXPECT_EQ(ring["due"], "2099-03-01");
  EXPECT_EQ(ring["uncertainty_mm"], 0.0008);
  const json setting = set({"master", "dial", "R86"}, "0.001");
  EXPECT_EQ(setting["master_mm"], 86.0012);
  EXPECT_EQ(setting["master"], "R86");
  const json read = at_bore("1", "0.011");
  EXPECT_EQ(read["size_mm"], 86.0112);
  const auto stored = entries_of_kind(daemon_.state() / "ledger.db", "setting");
  ASSERT_EQ(stored.size(), 1U);
  const auto master = entries_of_kind(daemon_.state() / "ledger.db", "master");
  ASSERT_EQ(master.size(), 1U);
  EXPECT_EQ(stored[0].json()["master_entry"], master[0].seq);
  EXPECT_EQ(stored[0].seq, read["setting"]);
}

TEST_F(Master, MastersAreDroppedAndSurviveARestart) {
  done({"masters", "add", "R86", "86.0012"});
  done({"masters", "add", "block", "1", "in"});
  done({"masters", "drop", "block"});
  daemon_.stop();
  daemon_.start();
  restart_watch();
  EXPECT_EQ(asked({"masters", "list"}).size(), 1U);
  wait_open("dial");
  EXPECT_EQ(set({"master", "dial", "R86"}, "0.000")["master_mm"], 86.0012);
  refused({"master", "dial", "block"}, 4);
  refused({"masters", "drop", "block"}, 4);
}

TEST_F(Master, WrongWordsAboutMasters) {
  done({"masters", "add", "R86", "86.0012"});
  refused({"masters", "add", "R86", "86.0012"}, 4);
  refused({"masters", "add", "R87", "wide"}, 2);
  refused({"masters", "add", "R87", "87", "--due", "2027-02-29"}, 2);
  refused({"masters", "add", "87", "87"}, 2);
  refused({"masters"}, 2);
  refused({"master", "dial"}, 2);
  refused({"master", "dial", "R86", "--in", "mic"}, 2);
  refused({"master", "dial", "--in", "nobody"}, 4);
  refused({"master", "nobody", "R86"}, 4);
}

TEST_F(Master, TheBoreGaugeIsSetInTheMicrometerThatJustReadThePiston) {
  const json piston = at_piston("85.950");
  const json setting = set({"master", "dial", "--in", "mic"}, "0.002");
  EXPECT_EQ(setting["master_mm"], 85.95);
  EXPECT_EQ(setting["in"], "mic");
  const json read = at_bore("1", "0.062");
  EXPECT_EQ(read["size_mm"], 86.01);
  EXPECT_EQ(bore("1", 0)["uncertainty_mm"], 0.005) << "3 and 4 um: the root of the sum of their squares";
  const json stored = entries_of_kind(daemon_.state() / "ledger.db", "setting")[0].json();
  EXPECT_EQ(stored["master_reading"], piston["seq"]);
  EXPECT_EQ(stored["master_pm"], 85950000000);
}

TEST_F(Master, AMicrometerWithoutAGoodLastReadingIsNoMaster) {
  refused({"master", "dial", "--in", "mic"}, 4);
  EXPECT_EQ(at_piston("8.595")["state"], "suspect");
  refused({"master", "dial", "--in", "mic"}, 4);
  at_piston("85.950");
  done({"master", "dial", "--in", "mic"});
  done({"undo", "--gauge", "mic"});
  refused({"master", "dial", "--in", "mic"}, 4);
}

TEST_F(Master, SizesAndVerdictsFollowACorrectedMaster) {
  const json setting = set({"master", "dial", "86.000"}, "0.000");
  const json read = at_bore("1", "0.010");
  EXPECT_EQ(read["size_mm"], 86.01);
  watch_->forget();
  done({"master", "--correct", setting["seq"].dump(), "86.050", "mm", "--reason", "it was the other ring"});
  const json change = watch_->next("change");
  EXPECT_EQ(change["seq"], read["seq"]);
  EXPECT_EQ(change["state"], "kept");
  const json alert = watch_->next("alert", [](const json& event) { return event["what"] == "out"; });
  EXPECT_EQ(alert["state"], "open");
  json now = reading(read["seq"]);
  EXPECT_EQ(now["size_mm"], 86.06);
  for (const char* key : {"value_mm", "text", "raw", "hash", "time", "setting"}) EXPECT_EQ(now[key], read[key]) << key;
  EXPECT_EQ(bore("1", 1)["verdict"], "out");
  EXPECT_EQ(at_bore("2", "0.000")["size_mm"], 86.05);
  done({"master", "--correct", setting["seq"].dump(), "86.000", "--reason", "no, it was not"});
  EXPECT_EQ(reading(read["seq"])["size_mm"], 86.01);
  const json ended = watch_->next("alert", [&](const json& event) { return event["id"] == alert["id"]; });
  EXPECT_EQ(ended["state"], "ended");
}

TEST_F(Master, ACorrectionIsInTheRecordAndSurvivesARestart) {
  engine(inline_four, "E2");
  const json setting = set({"master", "dial", "86.000"}, "0.000");
  const json two = at_bore("1", "0.012");
  done({"engine", "use", "E1"});
  const json one = at_bore("1", "0.010");
  done({"master", "--correct", setting["seq"].dump(), "86.005", "--reason", "other ring"});
  for (const char* name : {"E1", "E2"}) {
    const std::filesystem::path file = home_ / (std::string(name) + ".json");
    done({"export", "--engine", name, "--format", "json", "--output", file});
    EXPECT_EQ(asked({"audit", "--record", file, "--ledger", daemon_.state() / "ledger.db"})["ok"], true) << name;
    const json record = json::parse(std::ifstream(file));
    const json& read = std::string(name) == "E1" ? one : two;
    EXPECT_EQ(reading_of(record["readings"], read["seq"])["size_mm"], std::string(name) == "E1" ? 86.015 : 86.017);
  }
  daemon_.stop();
  daemon_.start();
  EXPECT_EQ(reading(one["seq"])["size_mm"], 86.015);
  EXPECT_EQ(asked({"audit", "--ledger", daemon_.state() / "ledger.db"})["ok"], true);
}

TEST_F(Master, OnlyASettingThatStandsIsCorrected) {
  const json setting = set({"master", "dial", "86.000"}, "0.000");
  const json read = at_bore("1", "0.010");
  const Words size = {"86.010", "mm", "--reason", "other ring"};
  const auto correct = [&](const std::string& seq) {
    Words words = {"master", "--correct", seq};
    words.insert(words.end(), size.begin(), size.end());
    return words;
  };
  refused(correct("1"), 4);
  refused(correct(read["seq"].dump()), 4);
  refused(correct("99999"), 4);
  refused(correct("zero"), 2);
  refused({"master", "--correct", setting["seq"].dump(), "wide", "--reason", "r"}, 2);
  refused({"master", "--correct", setting["seq"].dump(), "86.010"}, 2);
  done({"void", setting["seq"].dump(), "--reason", "dirt"});
  refused(correct(setting["seq"].dump()), 4);
  EXPECT_EQ(reading(read["seq"])["size_mm"], 86.01);
}

TEST_F(Master, WhatWasSetInACorrectedGaugeFollows) {
  done({"master", "mic", "75.000"});
  cable("mic").send(line("75.000"));
  const json rod = watch_->next("setting");
  const json piston = at_piston("85.950");
  set({"master", "dial", "--in", "mic"}, "0.000");
  const json read = at_bore("1", "0.060");
  done({"master", "--correct", rod["seq"].dump(), "75.002", "--reason", "certificate misread"});
  EXPECT_EQ(reading(piston["seq"])["size_mm"], 85.952);
  EXPECT_EQ(reading(read["seq"])["size_mm"], 86.012);
}

}  // namespace
}  // namespace acceptance
