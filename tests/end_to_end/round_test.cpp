// The guided round: its order, what moves it on, and two gauges on rounds of their own.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Round : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
  bool has_place(const std::string& gauge, const std::string& place) {
    return place_of(pick(asked({"status"})["places"], {{"gauge", gauge}})) == place;
  }
  // Where the next `count` frames, each good for its feature, are laid.
  std::vector<std::string> walk(int count) {
    std::vector<std::string> places;
    for (int i = 0; i < count; ++i) {
      const json place = asked({"status"})["places"][0];
      places.push_back(place_of(press("g", line(good(place)))));
    }
    return places;
  }
  static std::string good(const json& place) {
    const std::string feature = place.is_object() ? place.value("feature", "") : "";
    return feature == "bore"           ? "86.010"
           : feature == "piston"       ? "85.950"
           : feature == "main_bearing" ? "54.040"
           : feature == "main_journal" ? "53.990"
                                       : "0.400";
  }
};

using Places = std::vector<std::string>;

TEST_F(Round, GoesByFeatureIndexLevelAxis) {
  done({"round", "main_bearing", "bore"});
  const Places places = walk(18);
  const Places first(places.begin(), places.begin() + 3);
  EXPECT_EQ(first, (Places{"main_bearing/1/vertical", "main_bearing/1/oblique", "main_bearing/2/vertical"}));
  const Places bores(places.begin() + 10, places.end());
  EXPECT_EQ(bores, (Places{"bore/1/top/thrust", "bore/1/top/pin", "bore/1/middle/thrust", "bore/1/middle/pin",
                           "bore/1/bottom/thrust", "bore/1/bottom/pin", "bore/2/top/thrust", "bore/2/top/pin"}));
}

TEST_F(Round, ByIndexTakesAllFeaturesOfOneFirst) {
  done({"round", "piston", "ring_gap_top", "--by", "index"});
  EXPECT_EQ(walk(4), (Places{"piston/1", "ring_gap_top/1", "piston/2", "ring_gap_top/2"}));
}

TEST_F(Round, StartsAtTheIndexAsked) {
  done({"round", "piston", "--from", "3"});
  EXPECT_EQ(walk(2), (Places{"piston/3", "piston/4"}));
}

TEST_F(Round, WithoutAFeatureTakesAllOfTheSpecInItsOrder) {
  done({"round"});
  EXPECT_EQ(place_of(asked({"status"})["places"][0]), "bore/1/top/thrust");
}

TEST_F(Round, SkipsWhatCountsAlreadyUnlessAgain) {
  press_at({"piston", "1"}, "g", line("85.950"));
  press_at({"piston", "3"}, "g", line("85.951"));
  done({"round", "piston"});
  EXPECT_EQ(walk(2), (Places{"piston/2", "piston/4"}));
  done({"round", "piston", "--again"});
  EXPECT_EQ(walk(4), (Places{"piston/1", "piston/2", "piston/3", "piston/4"}));
}

TEST_F(Round, AfterTheLastPlaceThereIsNoPlace) {
  done({"round", "piston"});
  watch_->forget();
  walk(4);
  json place;
  do {
    place = watch_->next("place");
  } while (place.contains("feature") && !place["feature"].is_null());
  EXPECT_TRUE(place["index"].is_null());
  const json lost = press("g", line("85.950"));
  EXPECT_EQ(doubts_of(lost), "no_place");
  EXPECT_TRUE(lost["feature"].is_null());
  refused({"next"}, 4);
}

TEST_F(Round, NextAndBackMoveWithoutAReading) {
  done({"round", "bore"});
  done({"next"});
  EXPECT_EQ(place_of(asked({"status"})["places"][0]), "bore/1/top/pin");
  done({"next"});
  done({"back"});
  EXPECT_EQ(walk(1), Places{"bore/1/top/pin"});
}

TEST_F(Round, StaysAtASuspectReading) {
  done({"round", "bore"});
  const json wild = press("g", line("96.010"));
  EXPECT_EQ(wild["state"], "suspect");
  EXPECT_EQ(walk(1), Places{"bore/1/top/thrust"});
}

TEST_F(Round, TwoGaugesKeepTheirOwn) {
  gauge("mic", {"--unit", "mm", "--measures", "outside"}, "bcd13");
  done({"round", "bore", "--gauge", "g"});
  done({"round", "main_journal", "--gauge", "mic"});
  EXPECT_EQ(place_of(press("g", line("86.010"))), "bore/1/top/thrust");
  EXPECT_EQ(place_of(press("mic", bcd13("53.990"))), "main_journal/1");
  EXPECT_EQ(place_of(press("mic", bcd13("53.991"))), "main_journal/2");
  EXPECT_EQ(place_of(press("g", line("86.010"))), "bore/1/top/pin");
  const json place = watch_->next("place", [](const json& p) { return place_of(p) == "bore/1/middle/thrust"; });
  EXPECT_EQ(place["gauge"], "g");
  done({"at", "piston", "2"});
  done({"at", "--common", "--gauge", "g"});
  EXPECT_EQ(place_of(press("g", line("85.950"))), "piston/2");
  EXPECT_EQ(place_of(press("mic", bcd13("53.992"))), "main_journal/3");
}

TEST_F(Round, AtNoneTakesThePlaceAway) {
  done({"at", "bore", "1", "top", "pin"});
  done({"at", "--none"});
  EXPECT_EQ(doubts_of(press("g", line("86.010"))), "no_place");
}

TEST_F(Round, FastestLevelTurnsTheOrderWithinAnIndex) {
  engine(vee_eight, "V");
  gauge("inch", {"--unit", "in"});
  done({"round", "bore"});
  Places places;
  for (int i = 0; i < 5; ++i) places.push_back(place_of(press("inch", line("4.0305"))));
  EXPECT_EQ(places, (Places{"bore/1/top/thrust", "bore/1/bottom/thrust", "bore/1/top/pin", "bore/1/bottom/pin",
                            "bore/2/top/thrust"}));
}

TEST_F(Round, LabelsNameTheIndexAndTheReadingHasBoth) {
  engine(vee_eight, "V");
  gauge("inch", {"--unit", "in"});
  const json reading = press_at({"bore", "L2", "bottom", "pin"}, "inch", line("4.0305"));
  EXPECT_EQ(reading["index"], 3);
  EXPECT_EQ(reading["label"], "L2");
  EXPECT_EQ(reading["size_mm"], 102.3747);
  refused({"at", "bore", "9", "top", "pin"}, 4);
  done({"round", "bore", "--from", "R3"});
  EXPECT_EQ(press("inch", line("4.0305"))["label"], "R3");
}

TEST_F(Round, PressesAsksForSeveralKeptReadingsAtAPlace) {
  std::string spec = single;
  spec.replace(spec.find("kind = \"inside\""), 15, "kind = \"inside\"\npresses = 3");
  engine(spec, "P");
  done({"round", "bore", "piston"});
  EXPECT_EQ(place_of(press("g", line("70.010"))), "bore/1");
  EXPECT_EQ(place_of(press("g", line("70.012"))), "bore/1");
  json bore = pick(asked({"check"})["features"], {{"feature", "bore"}});
  EXPECT_EQ(bore["readings"], 0) << bore;
  EXPECT_EQ(bore["missing"], 1) << bore;
  EXPECT_EQ(place_of(press("g", line("70.015"))), "bore/1");
  EXPECT_EQ(place_of(press("g", line("69.950"))), "piston/1");
  bore = pick(asked({"check"})["features"], {{"feature", "bore"}});
  EXPECT_EQ(bore["readings"], 1) << bore;
  EXPECT_EQ(bore["mean_mm"], 70.012333333);  // 70.010, 70.012, 70.015: a third of 210.037, to the picometre
  EXPECT_EQ(asked({"readings", "--feature", "bore"}).size(), 3U);
}

class TooSoon : public Round {
 protected:
  std::string config() const override { return "[intake]\nsettle_ms = 60000\n"; }
};

TEST_F(TooSoon, ASecondFrameOfOneGaugeOnARoundIsHeld) {
  gauge("mic", {"--unit", "mm"}, "bcd13");
  done({"round", "bore", "--gauge", "g"});
  done({"round", "piston", "--gauge", "mic"});
  EXPECT_EQ(press("g", line("86.010"))["state"], "kept");
  EXPECT_EQ(press("mic", bcd13("85.950"))["state"], "kept");  // another gauge
  const json second = press("g", line("86.010"));
  EXPECT_EQ(second["state"], "suspect");
  EXPECT_EQ(doubts_of(second), "too_soon");
  EXPECT_EQ(place_of(second), "bore/1/top/pin");
  EXPECT_TRUE(has_place("g", "bore/1/top/pin"));
  done({"keep", second["seq"].dump(), "--reason", "it was meant"});  // the round still stands there
  EXPECT_TRUE(has_place("g", "bore/1/middle/thrust"));
}

TEST_F(TooSoon, WithoutARoundNothingIsTooSoon) {
  done({"at", "bore", "1", "top", "pin"});
  EXPECT_EQ(press("g", line("86.010"))["state"], "kept");
  EXPECT_EQ(press_at({"bore", "1", "top", "pin"}, "g", line("86.011"))["state"], "kept");
}

}  // namespace
}  // namespace acceptance
