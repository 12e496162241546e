// The ring loop: measure, file, measure. What is filed off never comes back.
#include <algorithm>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Ring : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    std::string spec = inline_four;
    spec.insert(spec.find("limits = [0.35, 0.50]"), "fitted_in = \"bore\"\n");
    engine(spec);
    gauge("g", {"--unit", "mm"});
  }
  json gap(const std::string& frame) { return press_at({"ring_gap_top", "1"}, "g", line(frame)); }
  void bore(const std::string& index, const std::string& size) {
    done({"round", "bore", "--from", index});
    for (int i = 0; i < 6; ++i) press("g", line(size));
  }
};

TEST_F(Ring, WhatIsLeftIsToldAfterEachEntry) {
  const json first = gap("0.300");
  EXPECT_EQ(first["to_file_mm"], 0.125);  // to the middle of 0.35 and 0.50
  EXPECT_EQ(first["verdict"], "out");
  const json wider = gap("0.420");
  EXPECT_EQ(wider["state"], "kept") << "a gap that grows was filed, it is no slip";
  EXPECT_EQ(wider["to_file_mm"], 0.005);
  EXPECT_EQ(wider["verdict"], "in");
  const json past = gap("0.510");
  EXPECT_EQ(past["to_file_mm"], -0.085);
  EXPECT_EQ(past["verdict"], "out");
  EXPECT_EQ(doubts_of(gap("0.420")), "repeat") << "a gap cannot shrink";
}

TEST_F(Ring, AnotherFeatureHasNothingToFile) {
  EXPECT_TRUE(press_at({"piston", "1"}, "g", line("85.950"))["to_file_mm"].is_null());
}

TEST_F(Ring, PastItsLimitOnlyAnotherRingHelps) {
  gap("0.510");
  const json none = asked({"remedies"}, 1)["none"];
  EXPECT_TRUE(std::any_of(none.begin(), none.end(), [](const json& one) { return one["feature"] == "ring_gap_top"; }))
      << none;
}

TEST_F(Ring, AnotherBoreChangesTheGapByPiTimesTheDifference) {
  bore("1", "86.010");
  bore("2", "86.020");
  gap("0.400");
  const json moved = asked({"what-if", "ring_gap_top", "1", "--bore", "2"});
  EXPECT_EQ(moved["bore_now_mm"], 86.01);
  EXPECT_EQ(moved["bore_would_mm"], 86.02);
  EXPECT_NEAR(moved["would"]["mean_mm"].get<double>(), 0.4 + 0.01 * 3.14159265358979, 1e-8);
  EXPECT_EQ(pick(asked({"check"})["features"], {{"feature", "ring_gap_top"}, {"index", 1}})["mean_mm"], 0.4)
      << "it changes nothing";
  refused({"what-if", "ring_gap_top", "1", "--bore", "3"}, 4);  // not measured
  refused({"what-if", "ring_gap_top", "1", "--bore", "9"}, 4);
}

}  // namespace
}  // namespace acceptance
