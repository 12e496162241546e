// No wrong number that looks right: each realistic slip is held with its reason, and the place stays.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Doubt : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("bg", {"--unit", "mm", "--measures", "inside"});
    gauge("mic", {"--unit", "mm", "--measures", "outside"});
    gauge("feeler", {"--unit", "mm", "--measures", "gap"});
  }
  // Sends the slip and then the good frame, both at the round's first place.
  void slip(const Words& round, const std::string& gauge, const std::string& frame, const std::string& doubts,
            const std::string& good) {
    done(Words{"round", round[0], "--from", round[1]});
    const json held = press(gauge, frame);
    EXPECT_EQ(held["state"], "suspect") << held;
    EXPECT_EQ(doubts_of(held), doubts);
    EXPECT_EQ(held["counts"], false);
    const json alert = watch_->next("alert", [&](const json& event) {
      return event["what"] == "suspect" && event["state"] == "open" &&
             event["seqs"].dump().find(held["seq"].dump()) != std::string::npos;
    });
    EXPECT_FALSE(alert.empty());
    const json kept = press(gauge, good);
    EXPECT_EQ(place_of(kept), place_of(held));
    EXPECT_EQ(kept["state"], "kept") << kept;
  }
};

TEST_F(Doubt, APointInTheWrongColumn) {
  slip({"bore", "1"}, "bg", line("8.6012"), "range tenfold", line("86.012"));
}

TEST_F(Doubt, APointTheOtherWay) {
  slip({"ring_gap_top", "1"}, "feeler", line("4.00"), "range tenfold", line("0.40"));
}

TEST_F(Doubt, InchesTakenForMillimetres) {
  slip({"bore", "2"}, "bg", line("3.3865"), "inch_mm range", line("86.010"));
}

TEST_F(Doubt, AFrameInTheOtherUnit) {
  slip({"bore", "2"}, "bg", line("3.3865in"), "unit", line("86.010mm"));
}

TEST_F(Doubt, AThimbleTurnTooFew) {
  slip({"piston", "1"}, "mic", line("85.4520"), "turn", line("85.952"));
}

TEST_F(Doubt, AnInchThimbleTurnTooMany) {
  slip({"piston", "1"}, "mic", line("86.5870"), "turn", line("85.952"));  // 0.6345 above the middle
}

TEST_F(Doubt, ABoreThatIsHalfAMillimetreBigIsNoTurn) {
  EXPECT_EQ(press_at({"bore", "1", "top", "pin"}, "bg", line("86.517"))["state"], "kept");
}

TEST_F(Doubt, TheOtherFeaturesSize) {
  slip({"main_bearing", "1"}, "bg", line("86.010"), "range", line("54.040"));
}

TEST_F(Doubt, ABoreGaugeOnAJournal) {
  done({"round", "main_journal"});
  const json held = press("bg", line("53.990"));
  EXPECT_EQ(doubts_of(held), "wrong_kind");
  EXPECT_EQ(place_of(held), "main_journal/1");
  const json kept = press("mic", line("53.990"));
  EXPECT_EQ(place_of(kept), "main_journal/1");
  EXPECT_EQ(kept["state"], "kept");
}

TEST_F(Doubt, NoPlaceChosen) {
  const json lost = press("bg", line("86.010"));
  EXPECT_EQ(doubts_of(lost), "no_place");
  for (const char* key : {"feature", "index", "level", "axis", "label"}) EXPECT_TRUE(lost[key].is_null()) << key;
  EXPECT_EQ(lost["size_mm"], 86.010);
  EXPECT_EQ(asked({"readings"}).size(), 0U);
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
}

TEST_F(Doubt, ARepeatTooFarFromTheReadingThatCounts) {
  press_at({"bore", "1", "top", "pin"}, "bg", line("86.0000"));
  EXPECT_EQ(press_at({"bore", "1", "top", "pin"}, "bg", line("86.0127"))["state"], "kept");  // as far as allowed
  const json far = press_at({"bore", "1", "top", "pin"}, "bg", line("86.0255"));             // 0.0128 more
  EXPECT_EQ(doubts_of(far), "repeat");
  EXPECT_EQ(asked({"readings"})[0]["text"], "86.0127");
}

TEST_F(Doubt, AGapMayGrowByFilingAndNotShrink) {
  press_at({"ring_gap_top", "1"}, "feeler", line("0.360"));
  EXPECT_EQ(press_at({"ring_gap_top", "1"}, "feeler", line("0.420"))["state"], "kept");
  EXPECT_EQ(doubts_of(press_at({"ring_gap_top", "1"}, "feeler", line("0.400"))), "repeat");
}

TEST_F(Doubt, AFrameBesideDamage) {
  done({"at", "bore", "1", "top", "pin"});
  cable("bg").send("86.0?0\r86.010\r");
  EXPECT_EQ(watch_->next("fault")["why"], "bad_frame");
  const json held = watch_->next("reading");
  EXPECT_EQ(held["state"], "suspect");
  EXPECT_EQ(doubts_of(held), "damaged");
}

TEST_F(Doubt, RangeIsTheLimitsAndAMillimetre) {
  EXPECT_EQ(press_at({"bore", "1", "top", "pin"}, "bg", line("85.0000"))["state"], "kept");
  EXPECT_EQ(doubts_of(press_at({"bore", "1", "middle", "pin"}, "bg", line("84.9999"))), "range");
  EXPECT_EQ(press_at({"bore", "2", "top", "pin"}, "bg", line("87.0350"))["state"], "kept");
  EXPECT_EQ(doubts_of(press_at({"bore", "2", "middle", "pin"}, "bg", line("87.0351"))), "range");
  EXPECT_EQ(press_at({"ring_gap_top", "1"}, "feeler", line("2.5"))["state"], "kept");
  EXPECT_EQ(doubts_of(press_at({"ring_gap_top", "2"}, "feeler", line("2.5001"))), "range tenfold");
  EXPECT_EQ(doubts_of(press_at({"ring_gap_top", "3"}, "feeler", line("-0.0001"))), "range");
}

TEST_F(Doubt, AWindowOfTheSpecStandsBeforeTheDefault) {
  std::string spec = single;
  spec.replace(spec.find("limits = [70.000, 70.020]"), 25,
               "limits = [70.000, 70.020]\nwindow = [69.990, 70.030]\nrepeat = 0.002");
  engine(spec, "W");
  EXPECT_EQ(press_at({"bore"}, "bg", line("70.030"))["state"], "kept");
  EXPECT_EQ(doubts_of(press_at({"bore"}, "bg", line("70.0301"))), "range");
  EXPECT_EQ(doubts_of(press_at({"bore"}, "bg", line("70.0279"))), "repeat");
  EXPECT_EQ(press_at({"bore"}, "bg", line("70.0280"))["state"], "kept");
}

TEST_F(Doubt, MillimetresTakenForInches) {
  engine(vee_eight, "V");
  gauge("inch", {"--unit", "in", "--measures", "inside"});
  done({"round", "bore"});
  const json held = press("inch", line("102.375"));
  EXPECT_EQ(doubts_of(held), "inch_mm range");
  EXPECT_EQ(place_of(press("inch", line("4.0305"))), "bore/1/top/thrust");
}

TEST_F(Doubt, ABridgeSwitchedToInchesIsCaughtByItsFrames) {
  gauge("bridge", {"--unit", "mm", "--measures", "inside"}, "bcd13");
  done({"at", "bore", "1", "top", "pin"});
  const json held = press("bridge", bcd13("3.38622", Unit::inch));  // 86.009988 mm
  EXPECT_EQ(doubts_of(held), "unit");
  EXPECT_EQ(held["value_mm"], 86.009988);
}

}  // namespace
}  // namespace acceptance
