// Another version of an engine's spec: what was measured stays, and is held against what is asked for now.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

std::string with(std::string spec, const std::string& text, const std::string& instead) {
  return spec.replace(spec.find(text), text.size(), instead);
}

class Respec : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    gauge("g", {"--unit", "mm"});
  }
  // The words that hold E1 against this spec.
  Words words(const std::string& spec) const {
    return {"engine", "respec", "E1", "--spec", write("later.toml", spec), "--reason", "letter of the ring maker"};
  }
};

TEST_F(Respec, ShowsTheDifferenceAndJudgesAnew) {
  const json reading = press_at({"ring_gap_top"}, "g", line("0.47"));
  EXPECT_EQ(asked({"check"}, 1)["verdict"], "out");
  const json first = asked({"check"}, 1)["spec"];
  const std::string text = done(words(with(single, "[0.30, 0.45]", "[0.30, 0.50]")));
  EXPECT_NE(text.find("feature ring_gap_top limits: 0.3 mm to 0.45 mm, now 0.3 mm to 0.5 mm"), std::string::npos)
      << text;
  const json event = watch_->next("spec");
  EXPECT_EQ(event["engine"], "E1");
  EXPECT_EQ(event["reason"], "letter of the ring maker");
  EXPECT_EQ(event["previous"], first);
  const json check = asked({"check"});
  EXPECT_EQ(check["spec"], event["seq"]);
  EXPECT_EQ(pick(check["features"], {{"feature", "ring_gap_top"}})["verdict"], "in");
  EXPECT_TRUE(asked({"alerts"}).empty()) << "the alert's cause has gone";
  EXPECT_EQ(asked({"readings"})[0]["seq"], reading["seq"]);
  EXPECT_EQ(asked({"engine", "list"})[0]["spec"], event["seq"]);
}

TEST_F(Respec, GivesTheDifferenceAsJson) {
  const json answer = asked(words(with(single, "kind = \"inside\"", "kind = \"inside\"\nmaterial = \"grey iron\"")));
  EXPECT_EQ(answer["engine"], "E1");
  EXPECT_EQ(answer["changes"], json::parse(R"([{"of": "feature", "name": "bore", "key": "material", "from": null,
                                               "to": "grey iron"}])"));
}

TEST_F(Respec, IsRefusedWhereMeasuredPlacesWouldVanish) {
  const json reading = press_at({"bore"}, "g", line("70.010"));
  done({"void", reading["seq"].dump(), "--reason", "burr"});
  const std::string error = refused(words(with(single, "[feature.bore]", "[feature.liner]")), 4);
  EXPECT_NE(error.find("bore"), std::string::npos) << error;
  refused(words(with(single, "kind = \"inside\"", "kind = \"gap\"")), 4);
  refused(words(with(single, "kind = \"inside\"", "kind = \"inside\"\nlevels = [\"top\"]")), 4);
  done(words(with(single, "[feature.deck]", "[feature.deck_height]")));  // nothing was measured there
}

TEST_F(Respec, ASpecWithAnErrorIsSaidWithItsLineAndChangesNothing) {
  const std::string error = refused(words(with(single, "[0.30, 0.45]", "[0.45, 0.30]")), 4);
  EXPECT_NE(error.find("later.toml:"), std::string::npos) << error;
  refused({"engine", "respec", "E1", "--spec", (home_ / "nowhere.toml").string(), "--reason", "x"}, 4);
  refused({"engine", "respec", "E2", "--spec", write("same.toml", single), "--reason", "x"}, 4);
  refused({"engine", "respec", "E1", "--spec", write("same.toml", single)}, 2);
  EXPECT_FALSE(watch_->heard("spec"));
}

TEST_F(Respec, ARoundGoesOnAndSoAfterARestart) {
  done({"round", "deck", "piston", "bore"});
  done(words(with(single, "[feature.deck]", "[feature.deck_height]")));
  EXPECT_EQ(asked({"status"})["places"][0]["feature"], "piston");
  daemon_.stop();
  daemon_.start();
  restart_watch();
  wait_open("g");
  EXPECT_EQ(asked({"status"})["places"][0]["of"], 2);
  EXPECT_EQ(place_of(press("g", line("69.950"))), "piston/1");
  EXPECT_EQ(place_of(press("g", line("70.010"))), "bore/1");
}

TEST_F(Respec, TheRecordHoldsBothVersionsAndVerifies) {
  press_at({"ring_gap_top"}, "g", line("0.47"));
  done(words(with(single, "[0.30, 0.45]", "[0.30, 0.50]")));
  const std::string file = (home_ / "e1.json").string();
  done({"export", "--format", "json", "--output", file});
  EXPECT_EQ(asked({"audit", "--record", file})["ok"], true);
  const std::string page = done({"export", "--format", "html"});
  EXPECT_NE(page.find("a new version of the spec: Acceptance: single"), std::string::npos);
  EXPECT_NE(page.find("letter of the ring maker"), std::string::npos);
}

TEST_F(Respec, NewLabelsNameTheSamePositions) {
  engine(vee_eight, "V");
  const json reading = press_at({"rod_bearing", "R1"}, "g", line("53.400"));
  const std::string renamed = with(with(vee_eight, R"(labels = ["L1", "R1")", R"(labels = ["A1", "B1")"),
                                   R"(pins = [["L1", "R1"])", R"(pins = [["A1", "B1"])");
  done({"engine", "respec", "V", "--spec", write("v.toml", renamed), "--reason", "the engine's own stamps"});
  const json after = reading_of(asked({"readings", "--all"}), reading["seq"]);
  EXPECT_EQ(after["index"], 2);
  EXPECT_EQ(after["label"], "B1");
  EXPECT_EQ(pick(asked({"check"})["fits"], {{"fit", "rod_clearance"}, {"index", 2}})["label"], "B1");
}

}  // namespace
}  // namespace acceptance
