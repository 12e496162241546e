// Calibrations and due days, gauges put in doubt since a day, and names that stay with their instrument.
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <sstream>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

// The day here, so many days from now.
std::string day(int later = 0) {
  std::time_t now = std::time(nullptr) + later * 86'400L;
  std::string text(10, ' ');
  std::strftime(text.data(), 11, "%Y-%m-%d", std::localtime(&now));
  return text;
}

class GaugeLife : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("mic", {"--unit", "mm", "--measures", "outside", "--uncertainty", "0.004", "--serial", "S-7"});
  }
  static void calibrate(const std::string& on, const std::string& due, const Words& more = {}) {
    Words words = {"gauge", "calibrate", "mic", "--on", on, "--due", due, "--certificate", "C-1188"};
    words.insert(words.end(), more.begin(), more.end());
    done(words);
  }
  json at_piston(const std::string& index, const std::string& shown = "85.950") {
    return press_at({"piston", index}, "mic", line(shown));
  }
  static json shown() { return pick(asked({"gauge", "list"}), {{"name", "mic"}}); }
  static std::vector<json> open(const std::string& what) {
    std::vector<json> alerts;
    for (const json& alert : asked({"alerts"}))
      if (alert["what"] == what && alert["state"] == "open") alerts.push_back(alert);
    return alerts;
  }
  json stored(const json& seq) { return entries(daemon_.state() / "ledger.db", "seq = " + seq.dump())[0].json(); }
  static json reading(const json& seq, const std::string& engine = "E1") {
    return reading_of(asked({"readings", "--all", "--engine", engine}), seq);
  }
};

TEST_F(GaugeLife, ACalibrationIsShownAndReadingsRestOnIt) {
  EXPECT_TRUE(shown()["due"].is_null());
  EXPECT_EQ(at_piston("1")["overdue"], false);
  calibrate(day(-10), day(), {"--by", "the calibration room"});
  EXPECT_EQ(shown()["due"], day());
  EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "mic"}})["due"], day());
  const json read = at_piston("2");
  EXPECT_EQ(read["overdue"], false) << "it holds through the due day";
  const auto calibrations = entries_of_kind(daemon_.state() / "ledger.db", "calibration");
  ASSERT_EQ(calibrations.size(), 1U);
  EXPECT_EQ(stored(read["seq"])["calibration"], calibrations[0].seq);
  EXPECT_EQ(calibrations[0].json()["certificate"], "C-1188");
  EXPECT_TRUE(open("overdue").empty());
}

TEST_F(GaugeLife, PastTheDueDayItIsSaidOnceForEachEngine) {
  calibrate(day(-400), day(-1));
  watch_->forget();
  const json read = at_piston("1");
  EXPECT_EQ(read["overdue"], true);
  EXPECT_EQ(read["state"], "kept");
  EXPECT_EQ(stored(read["seq"])["overdue"], true);
  const json alert = watch_->next("alert", [](const json& event) { return event["what"] == "overdue"; });
  EXPECT_EQ(alert["subject"], "mic");
  EXPECT_EQ(alert["engine"], "E1");
  at_piston("2");
  EXPECT_EQ(open("overdue").size(), 1U);
  const std::string csv = done({"export", "--format", "csv"});
  EXPECT_NE(csv.find("true"), std::string::npos) << csv;
  calibrate(day(), day(365));
  EXPECT_TRUE(open("overdue").empty());
  EXPECT_EQ(reading(read["seq"])["overdue"], true);
  EXPECT_EQ(at_piston("3")["overdue"], false);
}

TEST_F(GaugeLife, TheUncertaintyThatWasFoundStandsFromThenOn) {
  const json before = at_piston("1");
  calibrate(day(-1), day(300), {"--uncertainty", "0.002"});
  at_piston("2");
  const json features = asked({"check"}, 0)["features"];
  EXPECT_EQ(pick(features, {{"feature", "piston"}, {"index", 1}})["uncertainty_mm"], 0.004);
  EXPECT_EQ(pick(features, {{"feature", "piston"}, {"index", 2}})["uncertainty_mm"], 0.002);
  EXPECT_EQ(shown()["uncertainty_mm"], 0.002);
}

TEST_F(GaugeLife, WrongWordsAboutCalibrations) {
  const auto with = [&](Words more, const std::string& name = "mic") {
    Words words = {"gauge", "calibrate", name};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  refused(with({"--on", "2026-05-01", "--due", "2026-04-30", "--certificate", "C"}), 2);
  refused(with({"--on", "2026-02-30", "--due", "2026-04-30", "--certificate", "C"}), 2);
  refused(with({"--on", "2026-02-01", "--due", "soon", "--certificate", "C"}), 2);
  refused(with({"--on", "2026-02-01", "--certificate", "C"}), 2);
  refused(with({"--on", "2026-02-01", "--due", "2027-02-01"}), 2);
  refused(with({"--on", "2026-02-01", "--due", "2027-02-01", "--certificate", "C"}, "nobody"), 4);
  refused({"gauge", "doubt", "mic", "--since", "yesterday", "--reason", "r"}, 2);
  refused({"gauge", "doubt", "mic", "--since", "2026-02-01"}, 2);
  refused({"gauge", "doubt", "nobody", "--since", "2026-02-01", "--reason", "r"}, 4);
}

TEST_F(GaugeLife, TheRecordShowsTheCalibration) {
  calibrate("2025-03-01", "2025-09-01");
  at_piston("1");
  const std::string page = done({"export", "--format", "html"});
  EXPECT_NE(page.find("C-1188"), std::string::npos);
  EXPECT_NE(page.find("2025-09-01"), std::string::npos);
  const std::filesystem::path file = home_ / "record.json";
  done({"export", "--format", "json", "--output", file});
  EXPECT_EQ(asked({"audit", "--record", file})["ok"], true);
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  EXPECT_NE(text.str().find("C-1188"), std::string::npos);
}

TEST_F(GaugeLife, EveryReadingSinceADayIsInDoubtOnEveryEngine) {
  const json one = at_piston("1");
  engine(inline_four, "E2");
  const json two = at_piston("1");
  const json three = at_piston("2");
  watch_->forget();
  done({"gauge", "doubt", "mic", "--since", day(), "--reason", "its anvil is chipped"});
  EXPECT_EQ(watch_->next("change")["state"], "suspect");
  EXPECT_EQ(doubts_of(reading(one["seq"])), "gauge");
  for (const json& read : {two, three}) {
    EXPECT_EQ(reading(read["seq"], "E2")["state"], "suspect");
    EXPECT_EQ(doubts_of(reading(read["seq"], "E2")), "gauge");
  }
  const auto alerts = open("gauge");
  ASSERT_EQ(alerts.size(), 2U);
  EXPECT_NE(alerts[0]["engine"], alerts[1]["engine"]);
  EXPECT_EQ(alerts[0]["subject"], "mic");
  done({"keep", two["seq"].dump() + ".." + three["seq"].dump(), "--reason", "measured again with another"});
  EXPECT_EQ(reading(two["seq"], "E2")["state"], "kept");
  EXPECT_EQ(open("gauge").size(), 1U);
}

TEST_F(GaugeLife, OnlyWhatWasReadSinceThen) {
  const json before = at_piston("1");
  const json after = at_piston("2");
  done({"gauge", "doubt", "mic", "--since", after["time"], "--reason", "chipped"});
  EXPECT_EQ(reading(before["seq"])["state"], "kept");
  EXPECT_EQ(reading(after["seq"])["state"], "suspect");
  done({"gauge", "doubt", "mic", "--since", day(1), "--reason", "chipped"});
  EXPECT_EQ(reading(before["seq"])["state"], "kept");
}

TEST_F(GaugeLife, AGaugeIsFoundBadAfterItWasDropped) {
  const json read = at_piston("1");
  done({"gauge", "drop", "mic"});
  done({"gauge", "doubt", "mic", "--since", day(), "--reason", "chipped"});
  EXPECT_EQ(doubts_of(reading(read["seq"])), "gauge");
  EXPECT_EQ(open("gauge").size(), 1U);
  daemon_.stop();
  daemon_.start();
  EXPECT_EQ(doubts_of(reading(read["seq"])), "gauge");
}

TEST_F(GaugeLife, ANameStaysWithItsInstrument) {
  calibrate(day(-10), day(100));
  done({"gauge", "drop", "mic"});
  const Words again = {"gauge", "add", "mic", "--port", cable("mic").port(), "--profile", "line", "--unit", "mm"};
  refused(again, 4);
  Words other = again;
  other.insert(other.end(), {"--serial", "S-8"});
  refused(other, 4);
  Words same = again;
  same.insert(same.end(), {"--serial", "S-7"});
  done(same);
  EXPECT_EQ(shown()["due"], day(100));
}

class Strict : public GaugeLife {
 protected:
  std::string config() const override { return "[intake]\nsettle_ms = 0\n[gauge]\noverdue = \"suspect\"\n"; }
};

TEST_F(Strict, AnOverdueReadingIsSuspectAndDoesNotMoveTheRound) {
  calibrate(day(-400), day(-1));
  done({"round", "piston"});
  const json held = press("mic", line("85.950"));
  EXPECT_EQ(held["state"], "suspect");
  EXPECT_EQ(doubts_of(held), "overdue");
  EXPECT_EQ(held["overdue"], true);
  EXPECT_EQ(open("overdue").size(), 1U);
  EXPECT_EQ(asked({"status"})["places"][0]["index"], 1);
  done({"keep", held["seq"].dump(), "--reason", "checked on two rings"});
  EXPECT_EQ(asked({"status"})["places"][0]["index"], 2);
}

class FarEast : public GaugeLife {
 protected:
  void SetUp() override {
    setenv("TZ", "TEST-14", 1);  // as far east as people live: there it is tomorrow sooner
    GaugeLife::SetUp();
  }
  void TearDown() override { unsetenv("TZ"); }
};

TEST_F(FarEast, DaysAreTheDaemonsOwn) {
  calibrate("2025-01-01", day());  // the day there
  EXPECT_EQ(at_piston("1")["overdue"], false);
  calibrate("2025-01-01", day(-1));
  EXPECT_EQ(at_piston("2")["overdue"], true);
  done({"gauge", "doubt", "mic", "--since", day(), "--reason", "chipped"});
  EXPECT_EQ(open("gauge").size(), 1U);
}

}  // namespace
}  // namespace acceptance
