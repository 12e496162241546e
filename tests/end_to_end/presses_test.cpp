// Several presses at each place: the mean of the last ones counts, and fewer are none.
#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

const std::string thrice = R"(title = "Acceptance: three presses"
unit = "mm"
[layout]
cylinders = 2
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [70.000, 70.020]
presses = 3
)";

class Presses : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(thrice);
    gauge("g", {"--unit", "mm"});
    done({"at", "bore", "1"});
  }
  json press(const std::string& size) { return Bench::press("g", line(size)); }
  static json bore() { return asked({"check"})["features"][0]; }
};

TEST_F(Presses, FewerThanAskedForAreMissing) {
  press("70.010");
  press("70.012");
  EXPECT_EQ(bore()["missing"], 1) << "places, not presses";
  EXPECT_EQ(bore()["readings"], 0);
  EXPECT_TRUE(bore()["mean_mm"].is_null());
  EXPECT_EQ(asked({"readings"}), json::array());
  press("70.012");
  EXPECT_EQ(bore()["missing"], 0);
  EXPECT_EQ(bore()["readings"], 1);
  EXPECT_EQ(bore()["verdict"], "in");
}

TEST_F(Presses, TheMeanOfTheLastCountsRoundedToAPicometre) {
  for (const char* size : {"70.010", "70.012", "70.011"}) press(size);
  EXPECT_EQ(bore()["mean_mm"], 70.011);
  press("70.012");  // of 70.012, 70.011, 70.012
  EXPECT_EQ(bore()["mean_mm"], 70.011666667);
  EXPECT_EQ(bore()["min_mm"], 70.011666667) << "the place has one figure";
  EXPECT_EQ(asked({"readings"}).size(), 3U);
}

TEST_F(Presses, AVoidUncoversTheOneBefore) {
  std::vector<json> seqs;
  for (const char* size : {"70.006", "70.012", "70.012", "70.009"}) seqs.push_back(press(size)["seq"]);
  EXPECT_EQ(bore()["mean_mm"], 70.011);
  done({"void", seqs[3].dump(), "--reason", "slipped"});
  EXPECT_EQ(bore()["mean_mm"], 70.010);
  done({"void", seqs[1].dump(), "--reason", "slipped"});
  EXPECT_EQ(bore()["missing"], 1);
}

TEST_F(Presses, OneFarFromTheOthersIsHeldAlthoughNoneCountsYet) {
  press("70.010");
  EXPECT_EQ(doubts_of(press("70.110")), "repeat");
  EXPECT_EQ(doubts_of(press("70.011")), "");
  EXPECT_EQ(bore()["missing"], 1);
}

TEST_F(Presses, ANewStageAsksForAllOfThemAgain) {
  for (const char* size : {"70.010", "70.012", "70.011"}) press(size);
  done({"stage", "carried", "bore", "--carry"});
  press("70.002");
  EXPECT_EQ(bore()["mean_mm"], 70.011) << "until replaced: one press replaces nothing";
  press("70.002");
  press("70.002");
  EXPECT_EQ(bore()["mean_mm"], 70.002);
}

}  // namespace
}  // namespace acceptance
