// What a round asks for at its beginning and end, how long it will take, and what is unconfirmed without the re-check.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/csv.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Guided : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
  void set(const std::string& shown) {
    done({"master", "g", "54.000"});
    cable("g").send(line(shown));
    watch_->next("setting");
  }
  void journals(int count) {
    for (int i = 0; i < count; ++i) press("g", line("53.990"));
  }
  static json place() { return pick(asked({"status"})["places"], {{"gauge", "g"}}); }
};

TEST_F(Guided, AllMeansAllOfTheSpec) {
  const json all = asked({"round", "all"});
  EXPECT_EQ(place_of(all), "bore/1/top/thrust");
  EXPECT_EQ(all["of"], asked({"round"})["of"]);
  refused({"round", "all", "bore"}, 4);
  refused({"round", "flywheel"}, 4);
  refused({"round", "bore", "--by", "colour"}, 2);
  refused({"round", "bore", "--from", "9"}, 4);
  refused({"round", "bore", "--gauge", "nobody"}, 4);
}

TEST_F(Guided, AComparatorIsToBeSetBeforeTheFirstPlace) {
  gauge("dial", {"--unit", "mm", "--reads", "deviation"});
  EXPECT_EQ(asked({"round", "bore", "--gauge", "dial"})["to_set"], json{"dial"});
  EXPECT_EQ(asked({"round", "main_journal", "--gauge", "g"})["to_set"], json::array());
}

TEST_F(Guided, TheTimeLeftIsKnownFromTheThirdReadingOn) {
  done({"round", "main_journal", "--gauge", "g"});
  journals(2);
  EXPECT_TRUE(place()["left_s"].is_null());
  journals(1);
  EXPECT_TRUE(place()["left_s"].is_number()) << place();
  EXPECT_EQ(place()["done"], 3);
  EXPECT_EQ(place()["of"], 5);
}

TEST_F(Guided, TheEndAsksForTheRecheckAndWithoutItReadingsAreUnconfirmed) {
  set("54.000");
  done({"round", "main_journal", "--gauge", "g"});
  journals(5);
  EXPECT_EQ(place()["recheck"], json{"g"});
  const json open = asked({"check"})["unconfirmed"];
  ASSERT_EQ(open.size(), 1U);
  EXPECT_EQ(open[0]["gauge"], "g");
  EXPECT_EQ(open[0]["readings"], 5);
  EXPECT_NE(done({"check"}).find("unconfirmed"), std::string::npos);
  EXPECT_EQ(json::parse(done({"export", "--format", "json"}))["check"]["unconfirmed"], open);
  EXPECT_EQ(by_column(read_csv(done({"export", "--format", "csv"})))[4].at("closed"), "false");
  done({"recheck", "g"});
  cable("g").send(line("54.001"));
  watch_->next("setting");
  EXPECT_EQ(asked({"check"})["unconfirmed"], json::array());
  EXPECT_EQ(by_column(read_csv(done({"export", "--format", "csv"})))[4].at("closed"), "true");
}

TEST_F(Guided, ADriftAtTheEndPutsTheRoundInDoubt) {
  set("54.000");
  done({"round", "main_journal", "--gauge", "g"});
  journals(5);
  done({"recheck", "g"});
  cable("g").send(line("54.003"));
  watch_->next("setting");
  for (const json& reading : asked({"readings", "--all"})) EXPECT_EQ(doubts_of(reading), "drift");
  EXPECT_EQ(pick(asked({"alerts"}), {{"what", "drift"}})["seqs"].size(), 5U);
}

TEST_F(Guided, UndoNextAndBackStayWithinTheRound) {
  done({"round", "main_journal", "--gauge", "g"});
  refused({"back", "--gauge", "g"}, 4);
  journals(3);
  done({"undo", "--gauge", "g"});
  EXPECT_EQ(place_of(place()), "main_journal/3");
  EXPECT_EQ(asked({"readings"}).size(), 2U);
  done({"next", "--gauge", "g"});
  done({"next", "--gauge", "g"});
  EXPECT_EQ(place_of(place()), "main_journal/5");
  journals(1);
  EXPECT_EQ(place_of(place()), "");
  refused({"next", "--gauge", "g"}, 4);
  done({"back", "--gauge", "g"});
  EXPECT_EQ(place_of(place()), "main_journal/5");
}

TEST_F(Guided, AKilledDaemonAndAPulledCableLeaveItWhereItStood) {
  done({"round", "main_journal", "--gauge", "g"});
  journals(2);
  daemon_.kill();
  daemon_.start();
  restart_watch();
  wait_open("g");
  EXPECT_EQ(place_of(place()), "main_journal/3");
  cable("g").unplug();
  watch_->next("gauge", [](const json& event) { return event["state"] == "gone"; });
  cable("g").plug();
  wait_open("g");
  EXPECT_EQ(place_of(press("g", line("53.990"))), "main_journal/3");
}

TEST_F(Guided, RoundsOfTwoGaugesOutliveAnotherEngine) {
  done({"round", "main_journal", "--gauge", "g"});
  journals(1);
  engine(single, "E2");
  const json reading = press("g", line("53.990"));
  EXPECT_EQ(reading["engine"], "E1") << "a place holds its engine";
  EXPECT_EQ(place_of(reading), "main_journal/2");
}

}  // namespace
}  // namespace acceptance
