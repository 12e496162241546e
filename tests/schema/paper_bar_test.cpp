#include <gtest/gtest.h>

#include <algorithm>

#include "sample_bench.hpp"
#include "schema/export/paper/bar.hpp"

namespace tenth::paper {
namespace {

using sample::um;

std::vector<Shape> of(const std::optional<Drawing>& drawing, Ink ink) {
  std::vector<Shape> found;
  std::ranges::copy_if(drawing.value().shapes, std::back_inserter(found), [&](const Shape& s) { return s.ink == ink; });
  return found;
}

void expect_from_to(const Shape& box, double from, double to) {
  EXPECT_NEAR(box.points.at(0).x, from, 1e-9);
  EXPECT_NEAR(box.points.at(1).x, to, 1e-9);
}

TEST(Bar, PutsFiguresWhereTheyLieBetweenTheLimits) {
  const auto drawing = bar({um(40), um(45), um(50)}, {um(30), um(60)}, um(40));
  // The limits take the middle half of 150 units.
  expect_from_to(of(drawing, Ink::allowed).at(0), 37.5, 112.5);
  expect_from_to(of(drawing, Ink::span).at(0), 62.5, 87.5);
  EXPECT_NEAR(of(drawing, Ink::mean).at(0).points.at(0).x, 75, 1e-9);
  EXPECT_NEAR(of(drawing, Ink::target).at(0).points.at(2).x, 62.5, 1e-9) << "its tip";
}

TEST(Bar, ShowsWhatLiesFarBeyondAtTheEdge) {
  expect_from_to(of(bar({um(900), um(900), um(900)}, {um(30), um(60)}, {}), Ink::span).at(0), 150, 151.5);
}

TEST(Bar, TakesOneLimit) {
  const auto upper = bar({um(10), um(10), um(10)}, {{}, um(20)}, {});
  EXPECT_EQ(of(upper, Ink::limit).size(), 1U);
  EXPECT_NEAR(of(upper, Ink::allowed).at(0).points.at(0).x, 0, 1e-9);
  EXPECT_EQ(of(bar({um(10), um(10), um(10)}, {um(5), {}}, {}), Ink::limit).size(), 1U);
}

TEST(Bar, IsNoneWithoutFiguresOrLimits) {
  EXPECT_FALSE(bar({}, {um(30), um(60)}, {}));
  EXPECT_FALSE(bar({um(1), um(1), um(1)}, {}, {}));
  EXPECT_FALSE(bar({um(30), um(30), um(30)}, {um(30), um(30)}, {}));
}

}  // namespace
}  // namespace tenth::paper
