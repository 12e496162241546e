// Oily hands: what people type, checks answered in one go, setups that the spec asks for, files named in the record.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

// Five caps to answer for, bores that want their plates, a check before the pistons.
std::string by_hand() {
  std::string spec = inline_four;
  const auto put = [&](const std::string& after, const std::string& more) {
    spec.insert(spec.find(after) + after.size(), more);
  };
  put("where = \"plates fitted\"\n", "setup = \"torque plates at 80 Nm\"\n");
  put("before = [\"piston\"]\n", "[feature.cap_bolts]\nkind = \"check\"\ncount = \"mains\"\n");
  return spec;
}

class ByHand : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(by_hand());
    done({"gauge", "add", "feeler", "--port", "hand", "--profile", "line", "--measures", "gap", "--unit", "mm"});
    watch_->forget();
  }
  static Words twice(const std::string& value) { return {"enter", "--again", value, "--gauge", "feeler", "--", value}; }
  static json answers() {
    json found = json::object();
    const Ran ran = tenth({"--json", "check"});
    const json report = json::parse(ran.out);
    for (const json& check : report["checks"]) {
      if (check["feature"] == "cap_bolts") found[check["label"].get<std::string>()] = check["answer"];
    }
    return found;
  }
};

TEST_F(ByHand, LengthsAsPeopleTypeThem) {
  const std::vector<std::pair<std::string, double>> typed{
      {".407", 0.407},      {"0,41 mm", 0.41}, {"0,4", 0.4},     {".0160 in", 0.4064}, {"16.1 thou", 0.40894},
      {"160tenth", 0.4064}, {"407 um", 0.407}, {"+0.4 mm", 0.4}, {"0.4070", 0.407}};
  for (const auto& [text, mm] : typed) {
    done({"at", "ring_gap_top", "1"});
    done(twice(text));
    const json reading = watch_->next("reading");
    EXPECT_EQ(reading["size_mm"], mm) << text;
    EXPECT_EQ(reading["text"], text);
    EXPECT_EQ(reading["raw"], text);
    done({"undo", "--gauge", "feeler"});
  }
}

TEST_F(ByHand, WhatCanBeMistakenIsNoLength) {
  done({"at", "ring_gap_top", "1"});
  for (const char* text :
       {"1,234", "1,234 mm", "0.4.0", "4/10", "nan", "inf", "0x1", "0.4 MM", "0.4\n", "", "\xC2\xB2"})
    refused(twice(text), 2);
  refused(twice(std::string(1000, '1')), 2);
  refused(twice("0." + std::string(40, '4')), 2);  // finer than a picometre
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
}

TEST_F(ByHand, ADifferingPairTellsNothingOfTheFirst) {
  done({"at", "ring_gap_top", "1"});
  const auto before = entries(daemon_.ledger()).size();
  const std::string why =
      refused({"enter", "0.4071", "--again", "0.4701", "--gauge", "feeler"}, 4);  // twice: text and JSON
  EXPECT_EQ(why.find("0.4071"), std::string::npos) << why;
  const auto after = entries(daemon_.ledger());
  ASSERT_EQ(after.size(), before + 2);
  for (std::size_t i = before; i < after.size(); ++i) {
    EXPECT_EQ(after[i].json()["kind"], "refused");
    EXPECT_EQ(after[i].body.find("4071"), std::string::npos) << after[i].body;
  }
}

TEST_F(ByHand, EqualLengthsInTwoUnitsAreOne) {
  done({"at", "ring_gap_top", "1"});
  done({"enter", "0.4064", "--again", "16 thou", "--gauge", "feeler"});
  EXPECT_EQ(watch_->next("reading")["size_mm"], 0.4064);
}

TEST_F(ByHand, RestAnswersEveryIndexThatHasNone) {
  done({"at", "cap_bolts", "2"});
  done({"enter", "no", "--note", "bolt stretched"});
  done({"at", "cap_bolts", "1"});
  done({"enter", "yes", "--rest"});
  EXPECT_EQ(answers(), (json{{"1", "yes"}, {"2", "no"}, {"3", "yes"}, {"4", "yes"}, {"5", "yes"}}));
  done({"at", "cap_bolts", "1"});
  done({"enter", "later", "--rest", "--note", "washers"});
  EXPECT_EQ(answers(), (json{{"1", "later"}, {"2", "no"}, {"3", "yes"}, {"4", "yes"}, {"5", "yes"}}));
  EXPECT_EQ(daemon_.stop(), 0);
  daemon_.start();
  EXPECT_EQ(answers()["3"], "yes");
}

TEST_F(ByHand, RestBelongsToChecks) {
  done({"at", "ring_gap_top", "1"});
  refused({"enter", "0.4", "--again", "0.4", "--gauge", "feeler", "--rest"}, 4);
  refused({"enter", "yes", "--rest"}, 4);
  done({"at", "--none"});
  refused({"enter", "yes", "--rest"}, 4);
  done({"at", "cap_bolts", "1"});
  refused({"enter", "maybe", "--rest"}, 2);
  EXPECT_TRUE(answers()["1"].is_null());
}

TEST_F(ByHand, SetupIsAskedForInEveryStage) {
  gauge("g", {"--unit", "mm"});
  const auto measure = [&] {
    done({"round", "bore", "--from", "1", "--gauge", "g"});
    for (int i = 0; i < 6; ++i) press("g", line("86.010"));
    press_at({"piston", "1", "--gauge", "g"}, "g", line("85.950"));
  };
  const auto bore = [] { return pick(asked({"check"})["features"], {{"feature", "bore"}, {"index", 1}}); };
  const auto fit = [] { return pick(asked({"check"})["fits"], {{"fit", "piston_clearance"}, {"index", 1}}); };
  measure();
  EXPECT_EQ(bore()["verdict"], "incomplete") << "a number that looks right, without its plates";
  EXPECT_EQ(bore()["missing"], 0);
  EXPECT_EQ(bore()["reasons"][0]["what"], "setup");
  EXPECT_EQ(fit()["verdict"], "incomplete");
  done({"setup", "bore", "yes"});
  EXPECT_EQ(bore()["verdict"], "in");
  EXPECT_EQ(fit()["verdict"], "in");
  done({"stage", "after honing", "bore"});
  measure();
  EXPECT_EQ(bore()["verdict"], "incomplete") << "the plates were off at the hone";
  done({"setup", "bore", "yes"});
  EXPECT_EQ(daemon_.stop(), 0);
  daemon_.start();
  EXPECT_EQ(bore()["verdict"], "in");
}

TEST_F(ByHand, SetupHasNoOtherWords) {
  refused({"setup", "bore", "no"}, 2);
  refused({"setup", "bore"}, 2);
  refused({"setup", "flywheel", "yes"}, 4);
}

TEST_F(ByHand, BeforeRaisesAnAlertThatTheAnswerEnds) {
  gauge("g", {"--unit", "mm"});
  EXPECT_EQ(press_at({"piston", "1"}, "g", line("85.950"))["state"], "kept");
  const auto feed = [](const json& alert) { return alert["subject"] == "oil_feed_clear"; };
  EXPECT_EQ(watch_->next("alert", feed)["state"], "open");
  press_at({"piston", "2"}, "g", line("85.950"));
  EXPECT_EQ(asked({"alerts"}).size(), 1U) << "one for its cause";
  done({"at", "oil_feed_clear"});
  done({"enter", "yes"});
  EXPECT_EQ(watch_->next("alert", feed)["state"], "ended");
  press_at({"piston", "3"}, "g", line("85.950"));
  EXPECT_EQ(asked({"alerts"}), json::array());
}

TEST_F(ByHand, AnAttachedFileIsNamedByWhatIsInIt) {
  done({"at", "ring_gap_top", "3"});
  const std::string name = "p<script>\x1b\n.jpg";
  const json answer = asked({"attach", write(name, "not really a picture")});
  EXPECT_EQ(answer["sha256"], sha256_hex("not really a picture"));
  EXPECT_EQ(answer["bytes"], 20);
  EXPECT_EQ(answer["file"], name);
  EXPECT_EQ(place_of(answer), "ring_gap_top/3");
  const std::string page = done({"export", "--format", "html"});
  EXPECT_NE(page.find(sha256_hex("not really a picture")), std::string::npos);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(done({"attach", home_ / name}).find('\x1b'), std::string::npos);
  refused({"attach", home_ / "nowhere"}, 4);
  refused({"attach", home_}, 4);
  refused({"attach"}, 2);
  const auto record = home_ / "record.json";
  done({"export", "--format", "json", "--output", record});
  done({"audit", "--record", record});
}

}  // namespace
}  // namespace acceptance
