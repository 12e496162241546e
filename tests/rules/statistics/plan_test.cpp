#include "rules/statistics/plan.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::code_of;

using Plan = std::vector<StudyPlace>;

std::vector<int> parts_of(const Plan& plan) {
  std::vector<int> parts;
  for (const auto& place : plan) parts.push_back(place.part);
  return parts;
}

// Worked by a second program from the published definition of SplitMix64 and the rule in the header.
TEST(StudyPlan, IsTheSameEverywhere) {
  EXPECT_EQ(parts_of(study_plan(10, 1, 1, 1).value()), (std::vector<int>{5, 3, 9, 2, 10, 4, 1, 7, 8, 6}));
  EXPECT_EQ(parts_of(study_plan(10, 1, 1, 0xFFFF'FFFF'FFFF'FFFFU).value()),
            (std::vector<int>{4, 5, 3, 8, 6, 1, 9, 2, 10, 7}));
  const Plan whole = study_plan(3, 2, 2, 42).value();
  EXPECT_EQ(whole, (Plan{{3, 1, 1},
                         {1, 1, 1},
                         {2, 1, 1},
                         {2, 2, 1},
                         {3, 2, 1},
                         {1, 2, 1},
                         {3, 2, 2},
                         {1, 2, 2},
                         {2, 2, 2},
                         {3, 1, 2},
                         {1, 1, 2},
                         {2, 1, 2}}));
}

RC_GTEST_PROP(StudyPlan, HoldsEveryPlaceOnceTrialByTrialAndOperatorByOperator, ()) {
  const int parts = *rc::gen::inRange(1, 12), operators = *rc::gen::inRange(1, 5), trials = *rc::gen::inRange(1, 5);
  const Plan plan = study_plan(parts, operators, trials, *rc::gen::arbitrary<std::uint64_t>()).value();
  RC_ASSERT(plan.size() == static_cast<std::size_t>(parts * operators * trials));
  RC_ASSERT(std::set<StudyPlace>(plan.begin(), plan.end()).size() == plan.size());
  RC_ASSERT(std::ranges::is_sorted(plan, {}, &StudyPlace::trial));
  int hands = 0;  // how often the gauge changes hands, or a trial begins
  for (std::size_t i = 0; i < plan.size(); ++i) {
    RC_ASSERT(plan[i].part >= 1 && plan[i].part <= parts && plan[i].by >= 1 && plan[i].by <= operators);
    if (i == 0 || plan[i].by != plan[i - 1].by || plan[i].trial != plan[i - 1].trial) ++hands;
  }
  RC_ASSERT(hands == operators * trials);
}

TEST(StudyPlan, EveryOrderIsAsLikely) {
  std::map<std::vector<int>, int> orders;
  for (std::uint64_t seed = 0; seed < 6000; ++seed) ++orders[parts_of(study_plan(3, 1, 1, seed).value())];
  ASSERT_EQ(orders.size(), 6U);
  for (const auto& [order, times] : orders) EXPECT_NEAR(times, 1000, 150);  // five standard deviations of 29
}

TEST(StudyPlan, AnotherSeedIsAnotherOrder) {
  EXPECT_NE(study_plan(10, 3, 3, 1).value(), study_plan(10, 3, 3, 2).value());
}

TEST(StudyPlan, RefusesSizesThatAreNoStudy) {
  EXPECT_EQ(code_of(study_plan(0, 1, 1, 1)), "study_size");
  EXPECT_EQ(code_of(study_plan(1, -1, 1, 1)), "study_size");
  EXPECT_EQ(code_of(study_plan(1, 1, 0, 1)), "study_size");
  EXPECT_EQ(code_of(study_plan(101, 10, 10, 1)), "study_size");
  EXPECT_EQ(code_of(study_plan(1 << 30, 1 << 30, 16, 1)), "study_size");
  EXPECT_EQ(study_plan(100, 10, 10, 1).value().size(), 10'000U);
}

}  // namespace
}  // namespace tenth::statistics
