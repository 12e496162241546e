#include "rules/statistics/run_rules.hpp"

#include <algorithm>
#include <set>

#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using Series = std::vector<double>;  // in sigmas from a centre of 0, unless told

std::vector<std::size_t> fired(RunRule rule, const Series& values, double centre = 0, double sigma = 1) {
  std::vector<std::size_t> found;
  const auto all = run_rules(values, centre, sigma).value();
  for (const RuleFired& one : all)
    if (one.rule == rule) found.push_back(one.index);
  return found;
}

using Where = std::vector<std::size_t>;

Series mirrored(Series values) {
  for (double& x : values) x = -x;
  return values;
}

/// The rule fires at the last of the values, on either side, and not at all when the first is taken off.
void expect_at_the_last(RunRule rule, const Series& values) {
  const auto name = kRunRules.of(rule);
  EXPECT_EQ(fired(rule, values), Where{values.size() - 1}) << name;
  EXPECT_EQ(fired(rule, mirrored(values)), Where{values.size() - 1}) << name;
  EXPECT_EQ(fired(rule, Series(values.begin() + 1, values.end())), Where{}) << name << " is one short";
}

TEST(RunRules, OneBeyondThreeSigma) {
  EXPECT_EQ(fired(RunRule::one_beyond_three_sigma, {0, 3.01, 0, -3.01, 2.99}), (Where{1, 3}));
}

TEST(RunRules, NineOnOneSide) {
  expect_at_the_last(RunRule::nine_on_one_side, {0.1, 0.5, 0.2, 0.9, 0.1, 0.3, 0.8, 0.1, 0.6});
  EXPECT_EQ(fired(RunRule::nine_on_one_side, {1, 1, 1, 1, -0.1, 1, 1, 1, 1, 1}), Where{});
}

TEST(RunRules, SixRisingOrFalling) {
  expect_at_the_last(RunRule::six_rising_or_falling, {-1, -0.5, 0, 0.1, 0.2, 0.3});
  EXPECT_EQ(fired(RunRule::six_rising_or_falling, {-1, -0.5, 0, 0, 0.2, 0.3}), Where{});  // a level step
}

TEST(RunRules, FourteenAlternating) {
  expect_at_the_last(RunRule::fourteen_alternating,
                     {0.1, -0.1, 0.2, -0.2, 0.1, -0.3, 0.1, -0.1, 0.3, -0.1, 0.1, -0.2, 0.1, -0.1});
  EXPECT_EQ(fired(RunRule::fourteen_alternating,
                  {0.1, -0.1, 0.2, -0.2, 0.1, 0.3, 0.4, -0.1, 0.3, -0.1, 0.1, -0.2, 0.1, -0.1}),
            Where{});
  EXPECT_EQ(fired(RunRule::fourteen_alternating,
                  {0.1, -0.1, 0.2, -0.2, -0.2, 0.3, -0.1, 0.1, -0.3, 0.1, -0.1, 0.2, -0.1, 0.1}),
            Where{});  // a level step
}

TEST(RunRules, TwoOfThreeBeyondTwoSigma) {
  expect_at_the_last(RunRule::two_of_three_beyond_two_sigma, {2.1, 0, 2.2});
  EXPECT_EQ(fired(RunRule::two_of_three_beyond_two_sigma, {2.1, 2.1}), Where{1});
  EXPECT_EQ(fired(RunRule::two_of_three_beyond_two_sigma, {2.1, 0, -2.2}), Where{});    // not on one side
  EXPECT_EQ(fired(RunRule::two_of_three_beyond_two_sigma, {2.1, 2.2, 0}), Where{1});    // the third adds nothing
  EXPECT_EQ(fired(RunRule::two_of_three_beyond_two_sigma, {2.1, 0, 0, 2.2}), Where{});  // too far apart
}

TEST(RunRules, FourOfFiveBeyondOneSigma) {
  expect_at_the_last(RunRule::four_of_five_beyond_one_sigma, {1.1, 1.2, 0, 1.1, 1.3});
  EXPECT_EQ(fired(RunRule::four_of_five_beyond_one_sigma, {1.1, -1.2, 0, 1.1, 1.3}), Where{});
}

TEST(RunRules, FifteenWithinOneSigma) {
  Series values(15, 0.9);
  for (std::size_t i = 0; i < values.size(); i += 2) values[i] = -0.9;
  expect_at_the_last(RunRule::fifteen_within_one_sigma, values);
  values[7] = 1.1;
  EXPECT_EQ(fired(RunRule::fifteen_within_one_sigma, values), Where{});
}

TEST(RunRules, EightBeyondOneSigma) {
  expect_at_the_last(RunRule::eight_beyond_one_sigma, {1.1, -1.2, 1.3, -1.1, -1.1, 1.5, 1.2, -1.4});
  EXPECT_EQ(fired(RunRule::eight_beyond_one_sigma, {1.1, -1.2, 1.3, -1.1, 0.9, 1.5, 1.2, -1.4}), Where{});
}

TEST(RunRules, AValueOnALineIsNotBeyondIt) {
  EXPECT_EQ(fired(RunRule::one_beyond_three_sigma, {3, -3}), Where{});
  // In millimetres: 83.013 lies three sigmas of 0.001 above 83.010, though in doubles it comes to 3.0000000000001.
  EXPECT_EQ(fired(RunRule::one_beyond_three_sigma, {83.013, 83.007}, 83.010, 0.001), Where{});
  EXPECT_EQ(fired(RunRule::one_beyond_three_sigma, {83.0131}, 83.010, 0.001), Where{0});
  EXPECT_EQ(fired(RunRule::nine_on_one_side, Series(20, 0.0)), Where{});
  EXPECT_EQ(fired(RunRule::fifteen_within_one_sigma, Series(20, 1.0)), Where{});
}

TEST(RunRules, WithoutScatterOnlyStepsAreTold) {
  Series values(9, 5.0);
  EXPECT_TRUE(run_rules(values, 0, 0).value().empty());
  for (std::size_t i = 0; i < values.size(); ++i) values[i] = static_cast<double>(i);
  EXPECT_EQ(fired(RunRule::six_rising_or_falling, values, 0, 0), (Where{5, 6, 7, 8}));
  EXPECT_EQ(run_rules(values, 0, 0).value().size(), 4U);
}

TEST(RunRules, AreToldByValueAndThenByRule) {
  const auto found = run_rules(Series{3.1, 3.2}, 0, 1).value();
  EXPECT_EQ(found, (std::vector<RuleFired>{{RunRule::one_beyond_three_sigma, 0},
                                           {RunRule::one_beyond_three_sigma, 1},
                                           {RunRule::two_of_three_beyond_two_sigma, 1}}));
}

// The handbook calls this process in control.
TEST(RunRules, AreSilentOnTheFlowRates) {
  EXPECT_TRUE(run_rules(testing::column("individuals_flowrate.csv", "value"), 50.81, 1.6647).value().empty());
}

TEST(RunRules, EachHasItsName) {
  EXPECT_EQ(kRunRules.of(RunRule::one_beyond_three_sigma), "one_beyond_three_sigma");
  EXPECT_EQ(kRunRules.of(RunRule::fourteen_alternating), "fourteen_alternating");
  EXPECT_EQ(kRunRules.of(RunRule::eight_beyond_one_sigma), "eight_beyond_one_sigma");
  EXPECT_EQ(std::set<std::string_view>(kRunRules.words.begin(), kRunRules.words.end()).size(), 8U);
}

}  // namespace
}  // namespace tenth::statistics
