// Labels as builders write them: some begin with others, and each feature may have its own.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

const std::string twelve = R"(title = "Acceptance: vee twelve"
unit = "mm"
[layout]
cylinders = 12
mains = 7
crankpins = 6
labels = ["1A", "1B", "2A", "2B", "3A", "3B", "4A", "4B", "5A", "5B", "6A", "6B"]
pins = [["1A", "1B"], ["2A", "2B"], ["3A", "3B"], ["4A", "4B"], ["5A", "5B"], ["6A", "6B"]]
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [70.000, 70.020]
labels = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"]
levels = ["top", "topmost"]
[feature.crankpin]
count = "crankpins"
kind = "outside"
limits = [50.000, 50.020]
levels = ["front", "rear"]
[feature.rod_bearing]
count = "cylinders"
kind = "inside"
limits = [50.050, 50.070]
[fit.rod_clearance]
inside = "rod_bearing"
outside = "crankpin"
seats = ["rear", "front"]
limits = [0.040, 0.060]
)";

class Label : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(twelve);
  }
  static std::string at(const Words& words) {
    Words all{"at"};
    all.insert(all.end(), words.begin(), words.end());
    return place_of(asked(all));
  }
};

TEST_F(Label, AWholeOneComesBeforeThoseThatBeginWithIt) {
  EXPECT_EQ(at({"bore", "1", "top"}), "bore/1/top");
  EXPECT_EQ(at({"bore", "12", "topm"}), "bore/12/topmost");
  EXPECT_EQ(at({"c", "6", "f"}), "crankpin/6/front");
}

TEST_F(Label, AnAmbiguousBeginningNamesAllThatItMayBe) {
  EXPECT_NE(refused({"at", "rod_bearing", "1"}, 4).find("1A, 1B"), std::string::npos);
  EXPECT_NE(refused({"at", "bore", "3", "to"}, 4).find("top, topmost"), std::string::npos);
}

TEST_F(Label, AFeaturesOwnAreItsOnlyOnes) {
  EXPECT_NE(refused({"at", "bore", "1A", "top"}, 4).find("12"), std::string::npos);
  refused({"at", "crankpin", "1A", "front"}, 4);
  EXPECT_EQ(at({"rod_bearing", "6B"}), "rod_bearing/12");
}

TEST_F(Label, TheFirstRodOfAPinSitsOnTheFirstSeatNamed) {
  gauge("g", {"--unit", "mm"});
  press_at({"crankpin", "6", "front"}, "g", line("50.010"));
  press_at({"crankpin", "6", "rear"}, "g", line("50.002"));
  press_at({"rod_bearing", "6A"}, "g", line("50.060"));
  press_at({"rod_bearing", "6B"}, "g", line("50.065"));
  const json fits = asked({"check"})["fits"];
  EXPECT_EQ(pick(fits, {{"label", "6A"}})["mean_mm"], 0.058) << "on the rear seat";
  EXPECT_EQ(pick(fits, {{"label", "6B"}})["mean_mm"], 0.055) << "on the front seat";
  EXPECT_EQ(pick(fits, {{"label", "6B"}})["outside_index"], 6);
}

TEST_F(Label, AnIndexInTheRoundIsNamedByItsLabel) {
  EXPECT_EQ(asked({"round", "rod_bearing", "--from", "5B"})["index"], 10);
  EXPECT_EQ(asked({"next"})["label"], "6A");
  EXPECT_EQ(asked({"what-if", "rod_clearance", "5B", "--inside", "50.060", "--outside", "50.010"})["would"]["mean_mm"],
            0.050);
}

}  // namespace
}  // namespace acceptance
