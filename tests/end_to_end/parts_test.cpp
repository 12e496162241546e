// Parts change places, and people decide: what sits where, what goes with what, and why.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Parts : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
  static json fit(const std::string& name, int index) {
    return pick(asked({"check"})["fits"], {{"fit", name}, {"index", index}});
  }
  // Bores 1 and 2 at 86.015 in the middle, pistons 1 and 2 at 85.955 and 85.945.
  void measure_two() {
    for (const char* bore : {"1", "2"})
      for (const char* axis : {"thrust", "pin"}) press_at({"bore", bore, "middle", axis}, "g", line("86.015"));
    press_at({"piston", "1"}, "g", line("85.955"));
    press_at({"piston", "2"}, "g", line("85.945"));
  }
};

TEST_F(Parts, InstallMakesOneIndexUnread) {
  for (const char* axis : {"vertical", "oblique"})
    for (const char* main : {"2", "3"}) press_at({"main_bearing", main, axis}, "g", line("54.040"));
  const std::string text = done({"install", "main_bearing", "3", "std-coated-lower", "--half", "lower"});
  EXPECT_NE(text.find("main_bearing/3/vertical"), std::string::npos) << text;
  const json event = watch_->next("install");
  EXPECT_EQ(event["feature"], "main_bearing");
  EXPECT_EQ(event["index"], 3);
  EXPECT_EQ(event["part"], "std-coated-lower");
  EXPECT_EQ(event["half"], "lower");
  EXPECT_EQ(asked({"readings"}).size(), 2U);
  EXPECT_EQ(asked({"readings", "--all"}).size(), 4U);
  const json features = asked({"check"})["features"];
  EXPECT_EQ(pick(features, {{"feature", "main_bearing"}, {"index", 2}})["verdict"], "in");
  EXPECT_EQ(pick(features, {{"feature", "main_bearing"}, {"index", 3}})["verdict"], "incomplete");
  done({"round", "main_bearing", "--from", "2"});
  const json again = press("g", line("54.046"));
  EXPECT_EQ(place_of(again), "main_bearing/3/vertical");
  EXPECT_EQ(again["state"], "kept");
  done({"undo"});
  EXPECT_EQ(asked({"readings"}).size(), 2U) << "what was read of the old shell stays behind";
}

TEST_F(Parts, InstallGivesItsAnswerAsJsonAndOutlastsARestart) {
  press_at({"piston", "2"}, "g", line("85.950"));
  const json answer = asked({"install", "piston", "2", "piston-9"});
  EXPECT_EQ(answer["part"], "piston-9");
  EXPECT_TRUE(answer["half"].is_null());
  EXPECT_EQ(answer["places"], json::array({"piston/2"}));
  daemon_.stop();
  daemon_.start();
  EXPECT_TRUE(asked({"readings"}).empty());
}

TEST_F(Parts, InstallIsRefusedWhereNothingSits) {
  refused({"install", "pistol", "1", "p"}, 4);
  refused({"install", "piston", "9", "p"}, 4);
  refused({"install", "piston", "p"}, 4);
  refused({"install", "oil_feed_clear", "p"}, 4);
  refused({"install", "piston", "1", "p", "--half", "upper"}, 4);
  refused({"install", "main_bearing", "1", "p", "--half", "left"}, 2);
  refused({"install", "main_bearing", "1", "a\tb"}, 2);
  refused({"install", "main_bearing"}, 2);
}

TEST_F(Parts, MateChangesWhoGoesWithWhom) {
  measure_two();
  EXPECT_EQ(fit("piston_clearance", 1)["mean_mm"], 0.06);
  const std::string text = done({"mate", "piston_clearance", "1", "2"});
  EXPECT_NE(text.find("bore 2 has no mate now"), std::string::npos) << text;
  EXPECT_EQ(watch_->next("mate")["lost"], json::parse(R"([{"index": 2, "label": "2"}])"));
  EXPECT_EQ(fit("piston_clearance", 1)["mean_mm"], 0.07);
  EXPECT_EQ(fit("piston_clearance", 1)["outside_index"], 2);
  EXPECT_EQ(fit("piston_clearance", 2)["verdict"], "incomplete");
  EXPECT_NE(done({"check", "--ready"}).find("tenth mate piston_clearance 2"), std::string::npos);
  const json answer = asked({"mate", "piston_clearance", "2", "1"});
  EXPECT_EQ(answer["lost"], json::array());
  EXPECT_EQ(fit("piston_clearance", 2)["mean_mm"], 0.06);
  refused({"mate", "piston_clearance", "2", "1"}, 4);
  refused({"mate", "ring_clearance", "2", "1"}, 4);
  refused({"mate", "piston_clearance", "5", "1"}, 4);
  refused({"mate", "piston_clearance", "1"}, 2);
}

TEST_F(Parts, ARodKeepsItsSeatOnAnotherPin) {
  engine(vee_eight, "V");
  const json answer = asked({"mate", "rod_clearance", "L1", "3"});
  EXPECT_EQ(answer["outside_label"], "3");
  EXPECT_EQ(answer["lost"], json::parse(R"([{"index": 5, "label": "L3"}])"));
  EXPECT_EQ(answer["freed"]["label"], "1");
  EXPECT_EQ(fit("rod_clearance", 6)["outside_index"], 3);  // R3 runs on the rear seat
}

TEST_F(Parts, ADecisionIsKeptAndStandsInTheRecord) {
  measure_two();
  done({"install", "piston", "1", "piston-9"});
  done({"mate", "piston_clearance", "1", "2"});
  const json decision = asked({"decide", "match <2>", "--remedy", "r1", "--reason", "nothing to machine"});
  EXPECT_EQ(decision["engine"], "E1");
  EXPECT_EQ(watch_->next("decide")["seq"], decision["seq"]);
  const std::string page = done({"export", "--format", "html"});
  for (const char* part : {"match &lt;2&gt; (remedy r1)", "nothing to machine", "piston 1: piston-9 installed",
                           "piston_clearance: bore 1 goes with piston 2"})
    EXPECT_NE(page.find(part), std::string::npos) << part;
  const std::string file = (home_ / "e1.json").string();
  done({"export", "--format", "json", "--output", file});
  EXPECT_EQ(asked({"audit", "--record", file})["ok"], true);
  refused({"decide", "match", "--remedy", "r1"}, 2);
  refused({"decide", " ", "--reason", "x"}, 2);
}

TEST_F(ColdBench, WithoutAnEngineThereIsNothingToDecide) {
  daemon_.start();
  refused({"decide", "x", "--reason", "y"}, 4);
  refused({"install", "bore", "1", "p"}, 4);
  refused({"mate", "piston_clearance", "1", "2"}, 4);
}

}  // namespace
}  // namespace acceptance
