#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::Workpiece;

/// Three journals of two levels, alike within 0.005 mm.
Workpiece journals(SpreadBy by) {
  Workpiece work;
  work.feature("journal", Kind::outside, {}, 3).levels = {"front", "rear"};
  work.spec.spreads.push_back({"journal", len("0.005"), by});
  return work;
}

void read_two(Workpiece& work, const std::string& index, const char* front, const char* rear) {
  work.read("journal/" + index + "/front", front);
  work.read("journal/" + index + "/rear", rear);
}

TEST(Spread, OfMeansIsTheLargestLessTheSmallestMean) {
  Workpiece work = journals(SpreadBy::means);
  read_two(work, "1", "60.000", "60.008");
  read_two(work, "2", "60.001", "60.001");
  read_two(work, "3", "60.003", "60.003");
  EXPECT_EQ(work.spread().spread, len("0.003"));
  EXPECT_EQ(work.spread().limit, len("0.005"));
  EXPECT_EQ(work.spread().verdict, Verdict::in);
}

TEST(Spread, OfReadingsGoesOverAll) {
  Workpiece work = journals(SpreadBy::readings);
  read_two(work, "1", "60.000", "60.008");
  read_two(work, "2", "60.001", "60.001");
  read_two(work, "3", "60.003", "60.003");
  EXPECT_EQ(work.spread().spread, len("0.008"));
  EXPECT_EQ(work.spread().verdict, Verdict::out);
}

TEST(Spread, ItsLimitIsInclusive) {
  for (const auto& [last, expected] : {std::pair("60.005", Verdict::in), std::pair("60.005000001", Verdict::out)}) {
    Workpiece work = journals(SpreadBy::means);
    read_two(work, "1", "60.000", "60.000");
    read_two(work, "2", "60.001", "60.001");
    read_two(work, "3", last, last);
    EXPECT_EQ(work.spread().verdict, expected) << last;
  }
}

TEST(Spread, OfMeansWaitsForAllReadings) {
  Workpiece work = journals(SpreadBy::means);
  EXPECT_EQ(work.spread().spread, std::nullopt);
  EXPECT_EQ(work.spread().verdict, Verdict::incomplete);
  read_two(work, "1", "60.000", "60.000");
  read_two(work, "2", "60.001", "60.001");
  work.read("journal/3/front", "60.010");
  EXPECT_EQ(work.spread().verdict, Verdict::incomplete);
  work.read("journal/3/rear", "60.000");
  EXPECT_EQ(work.spread().verdict, Verdict::in);  // the last mean came back to 60.005
}

TEST(Spread, OfReadingsIsOutAsSoonAsTwoLieTooFarApart) {
  Workpiece work = journals(SpreadBy::readings);
  work.read("journal/1/front", "60.000");
  EXPECT_EQ(work.spread().verdict, Verdict::incomplete);
  work.read("journal/3/front", "60.010");
  EXPECT_EQ(work.spread().verdict, Verdict::out);
}

TEST(Spread, OneAloneHasNone) {
  Workpiece work;
  work.feature("journal", Kind::outside, {});
  work.spec.spreads.push_back({"journal", len("0.005"), SpreadBy::means});
  work.read("journal/1", "60.000");
  EXPECT_EQ(work.spread().spread, std::nullopt);
  EXPECT_EQ(work.spread().verdict, std::nullopt);
}

TEST(Spread, UncertaintyIsRootTwoOfTheLargestRepeatability) {
  Workpiece work = journals(SpreadBy::means);
  read_two(work, "1", "60.000", "60.000");
  read_two(work, "2", "60.001", "60.001");
  read_two(work, "3", "60.004", "60.004");
  for (Reading& reading : work.engine.readings) reading.repeatability = len("0.0005");
  work.engine.readings[4].repeatability = len("0.001");
  EXPECT_EQ(work.spread().uncertainty, len("0.001414214"));
  EXPECT_EQ(work.spread().verdict, Verdict::doubtful);
  work.engine.readings[0].repeatability.reset();
  EXPECT_EQ(work.spread().uncertainty, std::nullopt);
  EXPECT_EQ(work.spread().verdict, Verdict::in);
}

}  // namespace
}  // namespace tenth
