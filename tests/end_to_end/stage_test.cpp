// Stages: states of the parts, with what is carried over and what must be measured again.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Stage : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
    gauge("g", {"--unit", "mm"});
    press_at({"bore"}, "g", line("70.010"));
    press_at({"piston"}, "g", line("69.950"));
  }
  static json feature(const std::string& name, int status = 0) {
    return pick(asked({"check"}, status)["features"], {{"feature", name}});
  }
};

TEST_F(Stage, ANewOneMakesItsFeaturesUnread) {
  EXPECT_EQ(feature("bore")["verdict"], "in");
  done({"stage", "after honing", "bore"});
  const json bore = feature("bore");
  EXPECT_EQ(bore["stage"], "after honing");
  EXPECT_EQ(bore["verdict"], "incomplete");
  EXPECT_EQ(bore["readings"], 0);
  EXPECT_EQ(bore["missing"], 1);
  EXPECT_TRUE(bore["mean_mm"].is_null());
  EXPECT_EQ(feature("piston")["stage"], "as found");
  EXPECT_EQ(feature("piston")["verdict"], "in");
}

TEST_F(Stage, ReadingsBelongToItAndAreNoRepeatOfTheStageBefore) {
  done({"stage", "after honing", "bore"});
  const json honed = press_at({"bore"}, "g", line("70.030"));  // 0.020 more than as found
  EXPECT_EQ(honed["stage"], "after honing");
  EXPECT_EQ(honed["state"], "kept") << honed;
  EXPECT_EQ(feature("bore", 1)["verdict"], "out");
  EXPECT_EQ(asked({"readings", "--all"}).size(), 3U);
}

TEST_F(Stage, CarryLetsEarlierReadingsCountUntilReplaced) {
  done({"stage", "as left", "bore", "--carry"});
  json bore = feature("bore");
  EXPECT_EQ(bore["stage"], "as left");
  EXPECT_EQ(bore["verdict"], "in");
  EXPECT_EQ(bore["mean_mm"], 70.010);
  EXPECT_EQ(bore["carried"], true) << bore;
  press_at({"bore"}, "g", line("70.012"));
  bore = feature("bore");
  EXPECT_EQ(bore["mean_mm"], 70.012);
}

TEST_F(Stage, WithoutAFeatureItIsAboutAll) {
  done({"stage", "as left"});
  EXPECT_EQ(feature("bore")["verdict"], "incomplete");
  EXPECT_EQ(feature("piston")["verdict"], "incomplete");
  EXPECT_EQ(asked({"status"})["stage"], "as left");
}

TEST_F(Stage, ARoundOfANewStageAsksForThePlaceAgain) {
  done({"stage", "after honing", "bore"});
  done({"round", "bore", "piston"});
  EXPECT_EQ(place_of(press("g", line("70.011"))), "bore/1");
  EXPECT_EQ(doubts_of(press("g", line("69.950"))), "no_place");  // the piston is read already: the round is over
}

TEST_F(Stage, AFitNamesTheStagesOfBothSides) {
  engine(inline_four, "F");
  done({"stage", "after grinding", "main_journal"});
  const json fit = pick(asked({"check"})["fits"], {{"fit", "main_clearance"}, {"index", 1}});
  EXPECT_EQ(fit["inside_stage"], "as found");
  EXPECT_EQ(fit["outside_stage"], "after grinding");
}

}  // namespace
}  // namespace acceptance
