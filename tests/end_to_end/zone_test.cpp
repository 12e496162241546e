// The zones about a limit: within the uncertainty of a figure it is doubtful, and the edges of the zones belong to the
// milder verdict.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

const std::string zones = R"(title = "Acceptance: zones"
unit = "mm"
[layout]
cylinders = 8
[feature.part]
count = "cylinders"
kind = "inside"
limits = [70.000, 70.020]
[feature.oval]
count = 4
kind = "inside"
axes = ["x", "y"]
window = [60, 80]
out_of_round = 0.010
[feature.hole]
count = "cylinders"
kind = "inside"
window = [60, 80]
[feature.pin]
count = "cylinders"
kind = "outside"
window = [60, 80]
[fit.play]
inside = "hole"
outside = "pin"
limits = [0.050, 0.080]
)";

class Zone : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(zones);
    gauge("bg", {"--unit", "mm", "--uncertainty", "0.002", "--repeatability", "0.001"});
    gauge("mic", {"--unit", "mm", "--uncertainty", "0.0015"});
    gauge("rule", {"--unit", "mm"});
  }
  static json feature(const std::string& name, int index) {
    return pick(asked({"check"}, exit_)["features"], {{"feature", name}, {"index", index}});
  }
  static json fit(int index) { return pick(asked({"check"}, exit_)["fits"], {{"index", index}}); }
  // A pin of 70.000 and a hole that leaves this play.
  void play(int index, const std::string& hole, const std::string& pin_gauge = "mic") {
    press_at({"pin", std::to_string(index)}, pin_gauge, line("70.0000"));
    EXPECT_EQ(press_at({"hole", std::to_string(index)}, "bg", line(hole))["state"], "kept");
  }
  static inline int exit_ = 0;
  void TearDown() override { exit_ = 0; }
};

TEST_F(Zone, OfASize) {
  const std::vector<std::pair<std::string, std::string>> sizes{
      {"69.9979", "out"}, {"69.9980", "doubtful"}, {"70.0019", "doubtful"}, {"70.0020", "in"},
      {"70.0180", "in"},  {"70.0181", "doubtful"}, {"70.0220", "doubtful"}, {"70.0221", "out"}};
  int index = 0;
  for (const auto& [size, verdict] : sizes) {
    press_at({"part", std::to_string(++index)}, "bg", line(size));
  }
  exit_ = 1;
  index = 0;
  for (const auto& [size, verdict] : sizes) {
    EXPECT_EQ(feature("part", ++index)["verdict"], verdict) << size;
    EXPECT_EQ(feature("part", index)["uncertainty_mm"], 0.002);
  }
}

TEST_F(Zone, OfAFormIsRootTwoOfTheRepeatability) {
  // U is 0.001414214 mm: in up to 0.008585786, out above 0.011414214.
  const std::vector<std::pair<std::string, std::string>> forms{
      {"70.008585", "in"}, {"70.008586", "doubtful"}, {"70.011414", "doubtful"}, {"70.011415", "out"}};
  for (int index = 1; index <= 4; ++index) {
    press_at({"oval", std::to_string(index), "x"}, "bg", line("70.000000"));
    press_at({"oval", std::to_string(index), "y"}, "bg", line(forms[static_cast<std::size_t>(index - 1)].first));
  }
  exit_ = 1;
  for (int index = 1; index <= 4; ++index) {
    const auto& [size, verdict] = forms[static_cast<std::size_t>(index - 1)];
    EXPECT_EQ(feature("oval", index)["verdict"], verdict) << size;
  }
}

TEST_F(Zone, OfAClearanceIsTheRootOfBothSquares) {
  const std::vector<std::pair<std::string, std::string>> plays{
      {"70.0474", "out"}, {"70.0475", "doubtful"}, {"70.0524", "doubtful"}, {"70.0525", "in"},
      {"70.0775", "in"},  {"70.0776", "doubtful"}, {"70.0825", "doubtful"}, {"70.0826", "out"}};
  int index = 0;
  for (const auto& [hole, verdict] : plays) play(++index, hole);
  exit_ = 1;
  index = 0;
  for (const auto& [hole, verdict] : plays) {
    EXPECT_EQ(fit(++index)["verdict"], verdict) << hole;
    EXPECT_EQ(fit(index)["uncertainty_mm"], 0.0025);
  }
  EXPECT_NEAR(fit(4)["probability"].get<double>(), 0.977249868, 1e-8) << "two standard deviations from one limit";
}

TEST_F(Zone, AtTheLimitItselfTheChancesAreEven) {
  play(1, "70.0500");
  EXPECT_EQ(fit(1)["verdict"], "doubtful");
  EXPECT_NEAR(fit(1)["probability"].get<double>(), 0.5, 1e-9);
}

TEST_F(Zone, WithoutAStatedUncertaintyThereIsNone) {
  play(1, "70.0500", "rule");
  EXPECT_EQ(fit(1)["verdict"], "in");
  EXPECT_TRUE(fit(1)["uncertainty_mm"].is_null());
  EXPECT_TRUE(fit(1)["probability"].is_null());
  press_at({"part", "1"}, "rule", line("70.0000"));
  EXPECT_EQ(feature("part", 1)["verdict"], "in");
  EXPECT_TRUE(feature("part", 1)["uncertainty_mm"].is_null());
}

TEST_F(Zone, TheWorstGaugeOfAnIndexCounts) {
  press_at({"oval", "1", "x"}, "mic", line("70.0000"));
  press_at({"oval", "1", "y"}, "bg", line("70.0000"));
  EXPECT_EQ(feature("oval", 1)["uncertainty_mm"], 0.002);
  press_at({"oval", "1", "x"}, "rule", line("70.0000"));
  EXPECT_TRUE(feature("oval", 1)["uncertainty_mm"].is_null()) << "one of them has stated none";
}

TEST_F(Zone, DoubtfulIsNotOutButSaidAndNotStrictlyGood) {
  press_at({"part", "1"}, "bg", line("70.0200"));
  EXPECT_EQ(tenth({"check"}).status, 0);
  EXPECT_EQ(tenth({"check", "--strict"}).status, 1);
  const json alert = pick(asked({"alerts"}), {{"what", "doubtful"}});
  EXPECT_EQ(alert["severity"], "look");
  EXPECT_EQ(alert["state"], "open");
  press_at({"part", "1"}, "bg", line("70.0100"));
  EXPECT_EQ(asked({"alerts"}), json::array());
}

}  // namespace
}  // namespace acceptance
