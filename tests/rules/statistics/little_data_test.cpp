// Every function with too few readings, with none that differ, with what is no number, and at the ends of what it
// takes.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <functional>
#include <limits>

#include "rules/statistics/run_rules.hpp"
#include "tests/rules/statistics/numbers.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::Numbers;

/// What a function says of a row of readings: its refusal's word, or that and all its numbers.
struct Said {
  std::string word;
  Numbers numbers;
};

template <class Answer>
Said said(const Result<Answer>& answer) {
  return {testing::code_of(answer), answer ? testing::numbers(*answer) : Numbers{}};
}

Result<Linearity> linearity_of(Values values) {
  std::vector<MasterReading> readings;
  for (std::size_t i = 0; i < values.size(); ++i) readings.push_back({i % 2 == 0 ? 25.0 : 50.0, values[i]});
  return linearity(readings);
}

Result<Drift> drift_of(Values values) {
  std::vector<MasterCheck> checks;
  for (std::size_t i = 0; i < values.size(); ++i) checks.push_back({static_cast<double>(i), values[i]});
  return drift(checks);
}

/// As many parts, by two operators and in two trials, as the values give.
Result<Crossed> crossed_of(Values values) {
  std::vector<StudyReading> readings;
  for (std::size_t i = 0; i + 4 <= values.size(); i += 4)
    for (std::size_t k = 0; k < 4; ++k)
      readings.push_back({static_cast<int>(i / 4), k < 2 ? "A" : "B", static_cast<int>(k % 2), values[i + k]});
  return crossed(readings);
}

/// Two groups, one reading after the other.
Result<OneWay> one_way_of(Values values) {
  std::vector<std::vector<double>> groups(std::min<std::size_t>(2, values.size()));
  for (std::size_t i = 0; i < values.size(); ++i) groups[i % 2].push_back(values[i]);
  return one_way(groups);
}

Said rules_of(Values values) {
  return {testing::code_of(run_rules(values, 0, 1)), {}};
}

struct Function {
  std::string name;
  std::size_t least;  ///< readings that it wants
  std::function<Said(Values)> say;
};

const std::vector<Function>& functions() {
  static const std::vector<Function> all = {
      {"describe", 2, [](Values v) { return said(describe(v)); }},
      {"one_way", 3, [](Values v) { return said(one_way_of(v)); }},
      {"grubbs", 3, [](Values v) { return said(grubbs(v)); }},
      {"generalized_esd of one", 3, [](Values v) { return said(generalized_esd(v, 1)); }},
      {"generalized_esd of two", 4, [](Values v) { return said(generalized_esd(v, 2)); }},
      {"bias", 2, [](Values v) { return said(bias(v, 83)); }},
      {"linearity", 3, [](Values v) { return said(linearity_of(v)); }},
      {"drift", 3, [](Values v) { return said(drift_of(v)); }},
      {"individuals", 2, [](Values v) { return said(individuals(v)); }},
      {"ewma", 1, [](Values v) { return said(ewma(v, {0, 1, 0.2, 3})); }},
      {"cusum", 1, [](Values v) { return said(cusum(v, {0, 0.5, 4})); }},
      {"run_rules", 1, rules_of},
  };
  return all;
}

TEST(LittleData, EveryFunctionSaysSo) {
  const std::vector<double> readings = {83.010, 83.012, 83.011, 83.013};
  for (const Function& function : functions())
    for (std::size_t count = 0; count <= readings.size(); ++count) {
      const Said got = function.say(Values(readings).first(count));
      EXPECT_EQ(got.word, count < function.least ? "too_few" : "accepted") << function.name << " of " << count;
    }
}

TEST(LittleData, AStudyWantsTwoOfEach) {
  const std::vector<double> readings = {1, 2, 3, 4, 5, 6, 7, 9};
  for (std::size_t count = 0; count < 8; ++count)
    EXPECT_EQ(testing::code_of(crossed_of(Values(readings).first(count))), "too_few") << count;
  EXPECT_EQ(testing::code_of(crossed_of(readings)), "accepted");
}

TEST(LittleData, ARefusalSaysHowManyAreWanted) {
  const auto refused = grubbs(std::vector<double>{83.01, 83.02});
  EXPECT_EQ(refused.error().message, "a test for an outlier of 2 is too little data");
  EXPECT_EQ(refused.error().remedy, "take at least 3 readings");
}

TEST(LittleData, GroupsOfOneReadingShowNoScatter) {
  EXPECT_EQ(testing::code_of(one_way(std::vector<std::vector<double>>{{1}, {2}, {3}})), "too_few");
  EXPECT_EQ(testing::code_of(one_way(std::vector<std::vector<double>>{{1, 2}, {}})), "too_few");
}

TEST(LittleData, NoFunctionTakesWhatIsNoNumber) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  for (const Function& function : functions())
    for (const double bad : {std::nan(""), kInfinity, -kInfinity, 1.1e15, -1.1e15, 1e300}) {
      EXPECT_EQ(function.say(std::vector<double>{1, 2, 3, 4, bad}).word, "no_number") << function.name << " of " << bad;
      EXPECT_EQ(function.say(std::vector<double>{bad, 2, 3, 4, 5}).word, "no_number") << function.name << " of " << bad;
    }
}

void expect_finite(const Numbers& numbers, const std::string& what) {
  for (const double x : numbers) EXPECT_TRUE(std::isfinite(x)) << what;
}

TEST(LittleData, ReadingsAlikeGiveNoFalseNumber) {
  for (const double value : {0.0, 83.01, -0.1, 1e15, 5e-324})
    for (const Function& function : functions()) {
      const Said got = function.say(std::vector<double>(10, value));
      EXPECT_EQ(got.word, "accepted") << function.name;
      expect_finite(got.numbers, function.name);
    }
  EXPECT_EQ(describe(std::vector<double>(10, 0.1)).value().deviation, 0);  // ten times 0.1 is not 1 in doubles
  EXPECT_EQ(one_way_of(std::vector<double>(10, 0.1)).value().between.f, std::nullopt);
}

TEST(LittleData, AQuotientThatIsNoNumberIsNone) {
  EXPECT_EQ(quotient(6, 3), 2);
  EXPECT_EQ(quotient(0, 3), 0);
  for (const auto& [a, b] : {std::pair(1.0, 0.0), std::pair(0.0, 0.0), std::pair(-1.0, 0.0), std::pair(1e300, 1e-300)})
    EXPECT_EQ(quotient(a, b), std::nullopt) << a << " / " << b;
}

/// Numbers that lie at the ends of doubles and of what is taken, and some that do not.
std::vector<double> wild(std::size_t count) {
  const auto number = rc::gen::element(0.0, -0.0, 5e-324, 1e-300, -1e-160, 1e-20, 0.1, 83.01, 83.010000000000005, 84.0,
                                       -1e7, 9e14, -9e14, 999999999999.9);
  return *rc::gen::container<std::vector<double>>(count, number);
}

RC_GTEST_PROP(LittleData, NoFiniteReadingsGiveANumberThatIsNone, ()) {
  const auto values = wild(*rc::gen::inRange<std::size_t>(0, 20));
  for (const Function& function : functions()) {
    const Said got = function.say(values);
    RC_ASSERT(got.word == "accepted" || (got.word == "too_few" && values.size() < function.least));
    for (const double x : got.numbers) RC_ASSERT(std::isfinite(x));
  }
}

RC_GTEST_PROP(LittleData, NoFiniteStudyGivesANumberThatIsNone, ()) {
  const auto study = crossed_of(wild(4 * *rc::gen::inRange<std::size_t>(2, 6)));
  if (!study) {
    RC_ASSERT(study.error().code == "no_variation");
    return;
  }
  for (const double x : testing::numbers(average_and_range(*study, 0.02))) RC_ASSERT(std::isfinite(x));
  for (const double x : testing::numbers(study_anova(*study, 0.02))) RC_ASSERT(std::isfinite(x));
}

RC_GTEST_PROP(LittleData, NoChartOfFiniteSettingsGivesANumberThatIsNone, ()) {
  const auto values = wild(12);
  const Individuals chart = individuals(values).value();
  for (const double x : testing::numbers(ewma(values, {chart.mean, chart.sigma, 0.2, 3}).value()))
    RC_ASSERT(std::isfinite(x));
  for (const double x : testing::numbers(cusum(values, {chart.mean, chart.sigma / 2, 5 * chart.sigma}).value()))
    RC_ASSERT(std::isfinite(x));
  RC_ASSERT(run_rules(values, chart.mean, chart.sigma).has_value());
}

}  // namespace
}  // namespace tenth::statistics
