#include "rules/outlying.hpp"

#include <gtest/gtest.h>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::Workpiece;

Workpiece repeats(const std::vector<std::string>& sizes) {
  Workpiece work;
  work.feature("bore", Kind::inside, {}, 2);
  for (const std::string& size : sizes) work.read("bore/1", size);
  return work;
}

// The eight readings of a mass spectrometer in the handbook's section on Grubbs' test: 199.31 … 245.57, the last an
// outlier, G = 2.4688 against 2.0317 one-sided at 5 %; two-sided 2.1266 (NIST/SEMATECH handbook, 1.3.5.17.1; the latter
// from its formula).
TEST(Outlying, TheHandbooksReading) {
  Workpiece work = repeats({"199.31", "199.53", "200.19", "200.82", "201.92", "201.95", "202.18", "245.57"});
  const auto found = outlying(work.done());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].seq, 8);
  EXPECT_EQ(found[0].among, 8);
  EXPECT_NEAR(found[0].distance, 2.4688, 5e-5);
  EXPECT_NEAR(found[0].critical, 2.1266, 5e-5);
  EXPECT_EQ(work.counts().at(testing::at("bore/1")).size, testing::len("245.57"));  // it goes on counting
}

TEST(Outlying, TwoRepeatsSayNothing) {
  EXPECT_TRUE(outlying(repeats({"83.000", "84.000"}).done()).empty());
}

TEST(Outlying, RepeatsThatFitAreNone) {
  EXPECT_TRUE(outlying(repeats({"83.000", "83.001", "83.002", "83.001"}).done()).empty());
  EXPECT_TRUE(outlying(repeats({"83", "83", "83", "83"}).done()).empty());
}

TEST(Outlying, VoidReadingsAndOtherStagesAreNotAmongThem) {
  Workpiece work = repeats({"83.000", "83.001", "83.002", "83.001", "83.900"});
  ASSERT_EQ(outlying(work.done()).size(), 1U);
  work.engine.readings.back().state = State::voided;
  EXPECT_TRUE(outlying(work.done()).empty());
  work.engine.readings.back().state = State::kept;
  work.begin_stage("bore", "honed", false);
  EXPECT_TRUE(outlying(work.done()).empty());
}

TEST(Outlying, FromFifteenOnTwoMayHideEachOther) {
  std::vector<std::string> sizes;
  for (int i = 0; i < 18; ++i) sizes.push_back("83.00" + std::to_string(i % 4));
  sizes.insert(sizes.end(), {"83.040", "83.041"});
  Workpiece work = repeats(sizes);
  EXPECT_EQ(outlying(work.done()).size(), 2U);
}

}  // namespace
}  // namespace tenth
