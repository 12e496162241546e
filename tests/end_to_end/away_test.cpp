// Parts that go out and come back: what is read of them meanwhile is held, and what comes back is compared.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Away : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
  json at_bore(const std::string& frame) { return press_at({"bore", "1", "top", "thrust"}, "g", line(frame)); }
  static void send(const Words& features) {
    Words words{"send"};
    words.insert(words.end(), features.begin(), features.end());
    words.insert(words.end(), {"--to", "the shop", "--ask", "hone"});
    done(words);
  }
};

TEST_F(Away, WhatIsReadOfAPartThatIsOutIsSuspect) {
  send({"bore"});
  EXPECT_EQ(doubts_of(at_bore("86.010")), "away");
  EXPECT_EQ(press_at({"main_bearing", "1", "vertical"}, "g", line("54.040"))["state"], "kept") << "this one is here";
  done({"receive", "bore"});
  EXPECT_EQ(at_bore("86.011")["state"], "kept");
  const json all = asked({"readings", "--all"});
  EXPECT_EQ(all[0]["state"], "suspect") << "coming back heals nothing that was read before";
}

TEST_F(Away, ARoundStaysUntilItIsBack) {
  send({"bore"});
  done({"round", "bore"});
  EXPECT_EQ(doubts_of(press("g", line("86.010"))), "away");
  EXPECT_EQ(place_of(asked({"status"})["places"][0]), "bore/1/top/thrust");
  done({"receive", "bore"});
  EXPECT_EQ(press("g", line("86.010"))["state"], "kept");
  EXPECT_EQ(place_of(asked({"status"})["places"][0]), "bore/1/top/pin");
}

TEST_F(Away, KeepAnswersIt) {
  send({"bore"});
  const json reading = at_bore("86.010");
  done({"keep", reading["seq"].dump(), "--reason", "measured at the shop, with our gauge"});
  const json kept = reading_of(asked({"readings"}), reading["seq"]);
  EXPECT_EQ(kept["state"], "kept");
  EXPECT_EQ(doubts_of(kept), "away");
}

TEST_F(Away, MoveJudgesItAnew) {
  send({"bore"});
  const json there = at_bore("86.010");
  const json here = press_at({"ring_gap_top", "1"}, "g", line("0.400"));
  done({"move", there["seq"].dump(), "ring_gap_top", "2", "--reason", "it was no bore"});
  EXPECT_EQ(doubts_of(reading_of(asked({"readings", "--all"}), there["seq"])), "range");
  done({"move", here["seq"].dump(), "bore", "2", "top", "pin", "--reason", "it was a bore"});
  EXPECT_EQ(doubts_of(reading_of(asked({"readings", "--all"}), here["seq"])), "away range");
}

TEST_F(Away, WhatWasReadBeforeItWentMayBeMovedLater) {
  const json before = at_bore("86.010");
  send({"bore"});
  done({"move", before["seq"].dump(), "bore", "2", "top", "thrust", "--reason", "wrong cylinder chosen"});
  EXPECT_EQ(doubts_of(reading_of(asked({"readings", "--all"}), before["seq"])), "");
}

TEST_F(Away, WhatWasReadWhileItWasOutStaysDoubtfulWhenMovedLater) {
  send({"bore"});
  const json meanwhile = at_bore("86.010");
  done({"receive", "bore"});
  done({"move", meanwhile["seq"].dump(), "bore", "2", "top", "thrust", "--reason", "wrong cylinder chosen"});
  EXPECT_EQ(doubts_of(reading_of(asked({"readings", "--all"}), meanwhile["seq"])), "away");
}

TEST_F(Away, OutlivesARestart) {
  send({"bore", "piston"});
  done({"receive", "piston"});
  EXPECT_EQ(daemon_.stop(), 0);
  daemon_.start();
  restart_watch();
  wait_open("g");
  EXPECT_EQ(doubts_of(at_bore("86.010")), "away");
  EXPECT_EQ(press_at({"piston", "1"}, "g", line("85.950"))["state"], "kept");
  const json away = asked({"check"})["away"];
  ASSERT_EQ(away.size(), 1U);
  EXPECT_EQ(away[0]["feature"], "bore");
  EXPECT_EQ(away[0]["to"], "the shop");
  EXPECT_EQ(away[0]["ask"], "hone");
}

TEST_F(Away, AnotherEngineHasItsPartsHere) {
  send({"bore"});
  engine(single, "E2");
  EXPECT_EQ(press_at({"bore"}, "g", line("70.010"))["state"], "kept");
  refused({"receive", "bore"}, 4);
}

TEST_F(Away, WrongWordsAndWrongStates) {
  refused({"send", "bore"}, 2);
  refused({"send", "bore", "--to", "the shop"}, 2);
  refused({"send", "--to", "the shop", "--ask", "hone"}, 2);
  refused({"send", "bore", "--to", "", "--ask", "hone"}, 2);
  refused({"send", "bore", "--to", "the shop", "--ask", "hone", "--size", "wide"}, 2);
  refused({"send", "bore", "--to", "the shop", "--ask", "hone", "--within", "0.01"}, 2);
  refused({"send", "flywheel", "--to", "the shop", "--ask", "hone"}, 4);
  refused({"send", "bore", "flywheel", "--to", "the shop", "--ask", "hone"}, 4);
  refused({"receive", "bore"}, 4);
  refused({"receive", "flywheel"}, 4);
  refused({"receive"}, 2);
  EXPECT_EQ(asked({"check"})["away"], json::array()) << "a refused act does nothing by half";
  send({"bore"});
  refused({"send", "bore", "--to", "another", "--ask", "hone"}, 4);
  refused({"send", "piston", "bore", "--to", "another", "--ask", "hone"}, 4);
  refused({"receive", "bore", "piston"}, 4);
  EXPECT_EQ(asked({"check"})["away"].size(), 1U);
}

TEST_F(Away, HostileWordsAreShownHarmless) {
  const std::string shop = "x\x1b[31m\n<script>alert(1)</script>";
  done({"send", "bore", "--to", shop, "--ask", std::string(1000, 'y')});
  EXPECT_EQ(asked({"check"})["away"][0]["to"], shop);
  EXPECT_EQ(done({"check"}).find('\x1b'), std::string::npos);
  EXPECT_EQ(done({"export", "--format", "html"}).find("<script"), std::string::npos);
}

TEST_F(Away, WhatComesBackIsHeldAgainstWhatWasAskedFor) {
  done({"send", "piston", "--to", "the shop", "--ask", "coat", "--size", "85.955", "--within", "0.003"});
  done({"receive", "piston"});
  done({"stage", "coated", "piston"});
  press_at({"piston", "1"}, "g", line("85.958"));
  press_at({"piston", "2"}, "g", line("85.959"));
  const json report = asked({"check"});
  const json good = pick(report["returned"], {{"feature", "piston"}, {"index", 1}});
  EXPECT_EQ(good["verdict"], "in") << "the limit itself is within";
  EXPECT_EQ(good["asked_mm"], 85.955);
  EXPECT_EQ(good["within_mm"], 0.003);
  EXPECT_EQ(good["from"], "the shop");
  EXPECT_EQ(pick(report["returned"], {{"feature", "piston"}, {"index", 2}})["verdict"], "out");
  EXPECT_EQ(pick(report["features"], {{"feature", "piston"}, {"index", 2}})["verdict"], "in")
      << "the spec's own limits";
}

}  // namespace
}  // namespace acceptance
