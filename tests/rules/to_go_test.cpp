#include "rules/to_go.hpp"

#include <gtest/gtest.h>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::at;
using testing::len;
using testing::Workpiece;

/// One crankpin with two rods, of which the second runs with 0.010 more.
Workpiece shared_pin() {
  Workpiece work;
  work.feature("rod_bearing", Kind::inside, {}, 2);
  work.feature("crankpin", Kind::outside, {}).levels = {"front", "rear"};
  Fit& fit = work.fit("clearance", "rod_bearing", "crankpin", testing::limits("0.04", "0.06"));
  fit.couples = {{1, 1, "front"}, {2, 1, "rear"}};
  fit.target = len("0.050");
  work.read("rod_bearing/1", "54.040");
  work.read("rod_bearing/2", "54.050");
  work.read("crankpin/1/front", "54.000");
  work.read("crankpin/1/rear", "54.000");
  return work;
}

std::optional<ToGo> of(Workpiece& work, const std::string& place) {
  const Engine engine = work.done();
  return to_go(engine, counting(engine), at(place));
}

TEST(ToGoTest, IsThatOfTheRodWhoseSeatItIs) {
  Workpiece work = shared_pin();
  EXPECT_EQ(of(work, "crankpin/1/front")->clearance, len("0.010"));
  EXPECT_EQ(of(work, "crankpin/1/rear")->clearance, len("0"));
  EXPECT_EQ(of(work, "rod_bearing/1")->clearance, len("0.010"));
}

TEST(ToGoTest, NamesTheMeanThatThisPartWouldHaveToComeTo) {
  Workpiece work = shared_pin();
  EXPECT_EQ(of(work, "rod_bearing/1")->size, len("54.050"));
  EXPECT_EQ(of(work, "crankpin/1/front")->size, len("53.990"));
}

TEST(ToGoTest, DoesNotWalkWithTheReading) {
  Workpiece work;
  work.feature("bore", Kind::inside, {}).levels = {"top", "middle", "bottom"};
  work.feature("piston", Kind::outside, {});
  Fit& fit = work.fit("clearance", "bore", "piston", testing::limits("0.04", "0.06"));
  fit.target = len("0.050");
  work.read("bore/1/top", "83.004");
  work.read("bore/1/middle", "82.996");
  work.read("bore/1/bottom", "82.988");
  work.read("piston/1", "82.936");
  for (const char* level : {"top", "middle", "bottom"})
    EXPECT_EQ(of(work, std::string("bore/1/") + level)->size, len("82.986")) << level;
}

TEST(ToGoTest, OfAPlaceThatNoFitUsesThereIsNone) {
  Workpiece work = shared_pin();
  work.spec.fits.front().inside_levels = {};
  work.feature("bore", Kind::inside, {});
  work.read("bore/1", "83.000");
  EXPECT_FALSE(of(work, "bore/1"));
  work.spec.fits.front().target = std::nullopt;
  EXPECT_FALSE(of(work, "rod_bearing/1"));
}

}  // namespace
}  // namespace tenth
