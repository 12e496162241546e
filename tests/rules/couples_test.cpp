#include "rules/couples.hpp"

#include <gtest/gtest.h>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::Workpiece;

Workpiece pistons() {
  Workpiece work;
  work.feature("bore", Kind::inside, {}, 3);
  work.feature("piston", Kind::outside, {}, 3);
  work.fit("clearance", "bore", "piston", testing::limits("0.04", "0.06"));
  for (int index = 1; index <= 3; ++index) {
    work.read("bore/" + std::to_string(index), "83.05");
    work.read("piston/" + std::to_string(index), len("83") - len("0.1") * (index - 1));
  }
  return work;
}

std::vector<int> outsides(const Workpiece& work) {
  std::vector<int> result;
  for (const Couple& couple : couples_of(work.engine, work.spec.fits.front())) result.push_back(couple.outside_index);
  return result;
}

TEST(Couples, AreTheSpecsUnlessMated) {
  const Workpiece work = pistons();
  EXPECT_EQ(outsides(work), (std::vector{1, 2, 3}));
}

TEST(Couples, WhoIsDisplacedHasNoMate) {
  Workpiece work = pistons();
  mate(work.engine, work.spec.fits.front(), 1, 3);
  EXPECT_EQ(outsides(work), (std::vector{3, 2, 0}));
}

TEST(Couples, UntilItIsGivenOne) {
  Workpiece work = pistons();
  mate(work.engine, work.spec.fits.front(), 1, 3);
  mate(work.engine, work.spec.fits.front(), 3, 1);
  EXPECT_EQ(outsides(work), (std::vector{3, 2, 1}));
}

TEST(Couples, TheLastWordHolds) {
  Workpiece work = pistons();
  const Fit& fit = work.spec.fits.front();
  mate(work.engine, fit, 1, 3);
  mate(work.engine, fit, 2, 3);
  EXPECT_EQ(outsides(work), (std::vector{0, 3, 0}));
  mate(work.engine, fit, 2, 2);
  EXPECT_EQ(outsides(work), (std::vector{0, 2, 0}));
}

TEST(Couples, OneWithoutAMateIsIncomplete) {
  Workpiece work = pistons();
  mate(work.engine, work.spec.fits.front(), 1, 3);
  const Report report = judge(work.done());
  EXPECT_EQ(report.fits[0].mean, len("0.25"));
  EXPECT_EQ(report.fits[0].outside_label, "3");
  EXPECT_EQ(report.fits[2].verdict, Verdict::incomplete);
  EXPECT_EQ(report.fits[2].outside_index, 0);
  EXPECT_EQ(report.fits[2].outside_label, "");
  EXPECT_EQ(report.fits[2].mean, std::nullopt);
}

/// Two crankpins with two rods each.
Workpiece rods(bool seats) {
  Workpiece work;
  work.feature("rod_bearing", Kind::inside, {}, 4);
  work.feature("crankpin", Kind::outside, {}, 2).levels = {"front", "rear"};
  Fit& fit = work.fit("clearance", "rod_bearing", "crankpin", testing::limits("0.04", "0.06"));
  fit.couples = {{1, 1, "front"}, {2, 1, "rear"}, {3, 2, "front"}, {4, 2, "rear"}};
  if (!seats)
    for (Couple& couple : fit.couples) couple.outside_level.clear();
  return work;
}

TEST(Couples, ARodKeepsItsSeatOnAnotherPin) {
  for (const bool seats : {true, false}) {
    Workpiece work = rods(seats);
    mate(work.engine, work.spec.fits.front(), 2, 2);
    EXPECT_EQ(outsides(work), (std::vector{1, 2, 2, 0})) << seats;
    EXPECT_EQ(couples_of(work.engine, work.spec.fits.front())[1].outside_level, seats ? "rear" : "");
  }
}

}  // namespace
}  // namespace tenth
