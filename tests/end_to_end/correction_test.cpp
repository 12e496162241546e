// Corrections are added, never written over: undo, void, keep, move.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Correction : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm", "--measures", "inside"});
  }
  static json reading(const json& seq) { return reading_of(asked({"readings", "--all"}), seq); }
};

TEST_F(Correction, UndoVoidsTheLastReadingAndGoesBackToItsPlace) {
  done({"round", "bore"});
  press("g", line("86.010"));
  const json second = press("g", line("86.020"));
  watch_->forget();
  done({"undo"});
  const json change = watch_->next("change");
  EXPECT_EQ(change["seq"], second["seq"]);
  EXPECT_EQ(change["state"], "void");
  EXPECT_GT(change["by_seq"].get<int>(), second["seq"].get<int>());
  EXPECT_EQ(reading(second["seq"])["state"], "void");
  const json again = press("g", line("86.012"));
  EXPECT_EQ(place_of(again), "bore/1/top/pin");
  EXPECT_EQ(again["state"], "kept");  // the void reading is no repeat
  EXPECT_EQ(place_of(press("g", line("86.012"))), "bore/1/middle/thrust");
}

TEST_F(Correction, UndoOfAGaugeTakesThatGaugesLastReading) {
  gauge("h", {"--unit", "mm"});
  const json first = press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  const json second = press_at({"bore", "2", "top", "pin"}, "h", line("86.010"));
  done({"undo", "--gauge", "g"});
  EXPECT_EQ(reading(first["seq"])["state"], "void");
  EXPECT_EQ(reading(second["seq"])["state"], "kept");
  done({"undo"});
  EXPECT_EQ(reading(second["seq"])["state"], "void");
  refused({"undo"}, 4);
}

TEST_F(Correction, AVoidUncoversTheReadingBefore) {
  const json first = press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  const json second = press_at({"bore", "1", "top", "pin"}, "g", line("86.012"));
  done({"void", second["seq"].dump(), "--reason", "gauge was tilted"});
  const json counting = asked({"readings"});
  ASSERT_EQ(counting.size(), 1U);
  EXPECT_EQ(counting[0]["seq"], first["seq"]);
  const json gone = reading(second["seq"]);
  EXPECT_EQ(gone["reason"], "gauge was tilted");
  EXPECT_EQ(gone["counts"], false);
  EXPECT_EQ(gone["value_mm"], 86.012);
  refused({"void", second["seq"].dump(), "--reason", "again"}, 4);
  done({"keep", second["seq"].dump(), "--reason", "it was not"});
  EXPECT_EQ(asked({"readings"})[0]["seq"], second["seq"]);
}

TEST_F(Correction, ARunIsVoidedWhole) {
  done({"round", "bore"});
  const int first = press("g", line("86.010"))["seq"];
  press("g", line("86.010"));
  const int last = press("g", line("86.010"))["seq"];
  done({"void", std::to_string(first) + ".." + std::to_string(last), "--reason", "dirty bore"});
  EXPECT_EQ(asked({"readings"}).size(), 0U);
  for (const json& one : asked({"readings", "--all"})) EXPECT_EQ(one["state"], "void");
}

TEST_F(Correction, KeepAcceptsWhatWasDoubtedAndMovesTheRoundOn) {
  done({"round", "bore"});
  const json wild = press("g", line("87.500"));
  ASSERT_EQ(doubts_of(wild), "range");
  watch_->forget();
  done({"keep", wild["seq"].dump(), "--reason", "bored too far, measured twice"});
  EXPECT_EQ(watch_->next("change")["state"], "kept");
  EXPECT_EQ(place_of(watch_->next("place")), "bore/1/top/pin");
  EXPECT_EQ(reading(wild["seq"])["state"], "kept");
  EXPECT_EQ(pick(asked({"check"}, 1)["features"], {{"feature", "bore"}, {"index", 1}})["verdict"], "out");
}

TEST_F(Correction, KeepIsRefusedWhereSomethingElseIsWanted) {
  const json lost = press("g", line("86.010"));
  EXPECT_EQ(doubts_of(lost), "no_place");
  refused({"keep", lost["seq"].dump(), "--reason", "r"}, 4);
  const json kind = press_at({"piston", "1"}, "g", line("85.950"));
  EXPECT_EQ(doubts_of(kind), "wrong_kind");
  refused({"keep", kind["seq"].dump(), "--reason", "r"}, 4);
  const json unit = press_at({"bore", "1", "top", "pin"}, "g", line("3.3865in"));
  EXPECT_NE(doubts_of(unit).find("unit"), std::string::npos) << unit;
  refused({"keep", unit["seq"].dump(), "--reason", "r"}, 4);
  gauge("dial", {"--unit", "mm", "--reads", "deviation"});
  const json unset = press_at({"bore", "1", "top", "pin"}, "dial", line("0.010"));
  EXPECT_EQ(doubts_of(unset), "no_setting");
  refused({"keep", unset["seq"].dump(), "--reason", "r"}, 4);
}

TEST_F(Correction, MoveGivesAReadingItsPlaceAndJudgesAnew) {
  const json lost = press("g", line("86.010"));
  done({"move", lost["seq"].dump(), "bore", "2", "top", "pin", "--reason", "place not chosen"});
  const json moved = reading(lost["seq"]);
  EXPECT_EQ(moved["state"], "kept");
  EXPECT_EQ(moved["doubts"], json::array());
  EXPECT_EQ(place_of(moved), "bore/2/top/pin");
  EXPECT_EQ(moved["reason"], "place not chosen");
  EXPECT_EQ(moved["counts"], true);
  done({"move", lost["seq"].dump(), "piston", "2", "--reason", "wrong again"});
  EXPECT_EQ(doubts_of(reading(lost["seq"])), "wrong_kind");
  EXPECT_FALSE(reading(lost["seq"])["moved_from"].is_null());
}

TEST_F(Correction, MoveOfARunGoesAlongTheRoundsOrder) {
  done({"round", "bore", "--from", "2"});
  const int first = press("g", line("86.010"))["seq"];
  press("g", line("86.011"));
  const int last = press("g", line("86.012"))["seq"];
  done({"move", std::to_string(first) + ".." + std::to_string(last), "bore", "1", "top", "thrust", "--reason",
        "it was cylinder 1"});
  const json counting = asked({"readings"});
  ASSERT_EQ(counting.size(), 3U);
  EXPECT_EQ(place_of(counting[0]), "bore/1/top/thrust");
  EXPECT_EQ(place_of(counting[1]), "bore/1/top/pin");
  EXPECT_EQ(place_of(counting[2]), "bore/1/middle/thrust");
}

TEST_F(Correction, ARefusalChangesNothing) {
  const json first = press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  const int seq = first["seq"];
  refused({"void", std::to_string(seq) + ".." + std::to_string(seq + 500), "--reason", "too far"}, 4);
  refused({"move", first["seq"].dump(), "bore", "9", "top", "pin", "--reason", "r"}, 4);
  EXPECT_EQ(reading(first["seq"])["state"], "kept");
  EXPECT_EQ(place_of(reading(first["seq"])), "bore/1/top/pin");
}

TEST_F(Correction, AnEmptyReasonIsNoReason) {
  const json first = press_at({"bore", "1", "top", "pin"}, "g", line("86.010"));
  const Ran ran = tenth({"void", first["seq"].dump(), "--reason", ""});
  EXPECT_TRUE(ran.status == 2 || ran.status == 4) << ran.status;
  EXPECT_EQ(reading(first["seq"])["state"], "kept");
}

}  // namespace
}  // namespace acceptance
