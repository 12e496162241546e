#include "rules/budget.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <random>

#include "rules/uncertainty.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::Workpiece;

/// A bore and a piston with what their gauges state.
class Fitted : public ::testing::Test {
 protected:
  Fitted() {
    work.feature("bore", Kind::inside, testing::limits("100.00", "100.05")).material = "grey iron";
    work.feature("piston", Kind::outside, testing::limits("99.90", "99.96")).material = "piston alloy";
    work.fit("clearance", "bore", "piston", testing::limits("0.040", "0.060"));
  }
  void read(const char* bore, const char* piston, const char* u_bore, const char* u_piston) {
    work.read("bore/1", bore).uncertainty = len(u_bore);
    work.read("piston/1", piston).uncertainty = len(u_piston);
  }
  /// Both at 30 °C with gauges at 20, known within 1 K.
  void warm() {
    for (Reading& reading : work.engine.readings) {
      reading.temperatures = Temperatures{1, *parse_temperature("30"), *parse_temperature("20"), *parse_within("1")};
      reading.size_20c = size_20c_of(reading, work.spec);
    }
  }
  FitBudget budget() { return fit_budget(work.done(), work.spec.fits[0], work.spec.fits[0].couples[0]); }
  Workpiece work;
};

TEST_F(Fitted, TheTermsAreTheGaugesOfBothSides) {
  read("100.02", "99.97", "0.003", "0.004");
  const FitBudget found = budget();
  ASSERT_EQ(found.budget.terms.size(), 2U);
  EXPECT_TRUE(found.budget.terms[0].inside);
  EXPECT_EQ(found.budget.terms[1].value, len("0.004"));
  EXPECT_EQ(found.result.uncertainty, len("0.005"));
}

TEST_F(Fitted, ASideWithoutAStatementLeavesNone) {
  work.read("bore/1", "100.02").uncertainty = len("0.003");
  work.read("piston/1", "99.97");
  EXPECT_FALSE(budget().result.uncertainty);
  EXPECT_EQ(budget().budget.terms.size(), 1U);
}

TEST_F(Fitted, TemperatureAddsATermForEachCorrectedSide) {
  read("100.00", "99.95", "0", "0");
  warm();
  const FitBudget found = budget();
  ASSERT_EQ(found.budget.terms.size(), 4U);
  EXPECT_EQ(found.budget.terms[1].value, len("0.00114"));      // 11.4e-6 × 100.00 mm × 1 K
  EXPECT_EQ(found.budget.terms[3].value, len("0.001949025"));  // 19.5e-6 × 99.95 mm × 1 K
  // √(0.00114² + 0.001949025²) = 0.0022579413… mm, rounded up to a picometre.
  EXPECT_EQ(found.result.uncertainty, len("0.002257942"));
}

TEST_F(Fitted, ADoubtfulFitSaysWhatWouldDecideIt) {
  read("100.020", "99.964", "0.003", "0.004");  // 0.056, 0.004 from the upper limit, U 0.005
  const FitBudget found = budget();
  ASSERT_EQ(found.result.verdict, Verdict::doubtful);
  EXPECT_EQ(found.room, len("0.004"));
  ASSERT_EQ(found.settling.size(), 2U);
  EXPECT_EQ(found.settling[0].at_most, Length());                    // the piston's gauge alone takes all the room
  EXPECT_EQ(found.settling[1].at_most, Length::from_pm(2'645'751));  // √(4² - 3²) µm
}

TEST_F(Fitted, WhatWouldDecideItDoes) {
  read("100.020", "99.964", "0.003", "0.002645751");
  EXPECT_EQ(budget().result.verdict, Verdict::in);
}

TEST_F(Fitted, BeyondTheLimitItTakesLessThanTheExcess) {
  read("100.020", "99.957", "0.003", "0.004");  // 0.063: 0.003 over
  EXPECT_EQ(budget().room, Length::from_pm(2'999'999));
  EXPECT_TRUE(budget().settling.empty());  // either gauge alone is as unsure as that
}

TEST_F(Fitted, OnTheLimitNothingDecides) {
  read("100.020", "99.960", "0.003", "0.004");
  EXPECT_EQ(budget().room, Length());
  EXPECT_TRUE(budget().settling.empty());
}

TEST_F(Fitted, SoakingSaysHowWellTheTemperatureMustBeKnown) {
  read("100.0500", "99.9996", "0", "0");
  warm();
  const FitBudget found = budget();
  ASSERT_EQ(found.result.verdict, Verdict::doubtful);
  ASSERT_EQ(found.settling.size(), 1U);  // the piston's temperature: its term is the largest
  EXPECT_FALSE(found.budget.terms[found.settling[0].term].inside);
  // √(0.001505778² - 0.00114057²) = 0.000983090… mm of 19.5e-6 × 99.9996 mm for each kelvin.
  EXPECT_EQ(in_kelvins(found.settling[0].within), "0.504");
}

RC_GTEST_PROP(Expanded, OfTwoGaugesIsTheirRootSumOfSquares, ()) {
  const auto a = Length::from_pm(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000));
  const auto b = Length::from_pm(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000));
  Budget budget{true, {}};
  budget.terms.push_back({true, BudgetTerm::Source::gauge, a, {}, {}, {}});
  budget.terms.push_back({false, BudgetTerm::Source::gauge, b, {}, {}, {}});
  RC_ASSERT(expanded(budget) == root_sum_of_squares(a, b));
}

RC_GTEST_PROP(Settle, ASmallerTermNeverNeedsMore, ()) {
  const auto u = *rc::gen::inRange<std::int64_t>(1, 20'000'000);
  Workpiece work;
  work.feature("bore", Kind::inside, testing::limits("100.00", "100.05"));
  work.feature("piston", Kind::outside, testing::limits("99.90", "99.96"));
  work.fit("clearance", "bore", "piston", testing::limits("0.040", "0.060"));
  work.read("bore/1", "100.02").uncertainty = Length::from_pm(u);
  work.read("piston/1", "99.962").uncertainty = len("0.001");
  const FitBudget found = fit_budget(work.done(), work.spec.fits[0], work.spec.fits[0].couples[0]);
  RC_PRE(found.result.verdict == Verdict::doubtful && !found.settling.empty());
  work.engine.readings[0].uncertainty = found.settling[0].at_most;
  RC_ASSERT(work.fitted().verdict == Verdict::in);
}

/// The propagation of distributions (JCGM 101): bore and piston drawn from normal distributions of half their expanded
/// uncertainties give the clearance's spread and its share within the limits; both agree with the formulas within what
/// so many draws can tell.
TEST(MonteCarlo, AgreesWithUncertaintyAndProbability) {
  constexpr int kFits = 20, kDraws = 40'000;
  std::mt19937_64 random(20261125);
  std::uniform_real_distribution<double> mm_of_u(0.0005, 0.006), mm_of_clearance(0.035, 0.065);
  for (int i = 0; i < kFits; ++i) {
    const double u_bore = mm_of_u(random), u_piston = mm_of_u(random), clearance = mm_of_clearance(random);
    const auto exactly = [](double mm) { return Length::from_pm(std::llround(mm * 1e9)); };
    Workpiece work;
    work.feature("bore", Kind::inside, testing::limits("100.00", "100.05"));
    work.feature("piston", Kind::outside, testing::limits("99.90", "99.96"));
    work.fit("clearance", "bore", "piston", testing::limits("0.040", "0.060"));
    work.read("bore/1", exactly(100.0 + clearance)).uncertainty = exactly(u_bore);
    work.read("piston/1", exactly(100.0)).uncertainty = exactly(u_piston);
    const FitResult fit = work.fitted();
    std::normal_distribution<double> bore(clearance, u_bore / 2), piston(0, u_piston / 2);
    double squares = 0;
    int within = 0;
    for (int draw = 0; draw < kDraws; ++draw) {
      const double drawn = bore(random) - piston(random);
      squares += (drawn - clearance) * (drawn - clearance);
      within += drawn >= 0.040 && drawn <= 0.060;
    }
    const double u = std::sqrt(squares / kDraws) * 2, share = static_cast<double>(within) / kDraws;
    const double stated = static_cast<double>(fit.uncertainty->pm()) / 1e9;
    EXPECT_NEAR(u, stated, 4.5 * stated / std::sqrt(2.0 * kDraws));
    const double p = *fit.probability;
    EXPECT_NEAR(share, p, 4.5 * std::sqrt(p * (1 - p) / kDraws) + 1.0 / kDraws);
  }
}

}  // namespace
}  // namespace tenth
