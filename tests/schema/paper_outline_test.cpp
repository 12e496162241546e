#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sample_bench.hpp"
#include "schema/export/paper/outline.hpp"

namespace tenth::paper {
namespace {

using sample::um;

Feature bore() {
  return *sample::spec().find("bore");
}

CountingMap sizes(const std::vector<std::pair<std::string, std::int64_t>>& by_axis) {
  CountingMap counts;
  for (const auto& [axis, size] : by_axis) counts[{"bore", 1, "top", axis}].size = um(size);
  return counts;
}

Drawing top_of(const Feature& feature, const CountingMap& counts) {
  Feature one = feature;
  one.levels = {"top"};
  std::vector<Length> all;
  for (const auto& [place, counting] : counts) all.push_back(counting.size);
  return outlines(one, 1, counts, enlargement(one, all), Unit::mm);
}

std::size_t count(const Drawing& drawing, Ink ink, Shape::Kind kind) {
  return static_cast<std::size_t>(
      std::ranges::count_if(drawing.shapes, [&](const Shape& s) { return s.ink == ink && s.kind == kind; }));
}

/// The points of the closed line as radii around the centre of the thin circles.
std::vector<double> radii(const Drawing& drawing) {
  const auto circle = std::ranges::find(drawing.shapes, Ink::allowed, &Shape::ink);
  const auto line = std::ranges::find(drawing.shapes, Ink::outline, &Shape::ink);
  std::vector<double> result;
  for (const Point p : line->points) result.push_back(std::hypot(p.x - circle->points[0].x, p.y - circle->points[0].y));
  return result;
}

TEST(Outline, GoesThroughTheDiametersRead) {
  const CountingMap counts = sizes({{"thrust", 83'030}, {"pin", 83'010}});
  const Enlargement scale = enlargement(bore(), {um(83'030), um(83'010)});
  const auto line = radii(top_of(bore(), counts));
  ASSERT_EQ(line.size(), 96U);
  // Upright, to the right, and both opposite; the same everywhere between by a quarter of a turn's symmetry.
  const double difference = static_cast<double>(um(20).pm()) * scale.per_pm;
  EXPECT_NEAR(line[0] - line[24], difference, 0.03);
  EXPECT_NEAR(line[48], line[0], 0.02);
  EXPECT_NEAR(line[72], line[24], 0.02);
  EXPECT_NEAR(line[12], (line[0] + line[24]) / 2, 0.02);
}

TEST(Outline, OfEqualDiametersIsACircleForAnyNumberOfAxes) {
  for (const std::vector<std::string>& axes :
       {std::vector<std::string>{"a", "b"}, {"a", "b", "c"}, {"a", "b", "c", "d"}}) {
    Feature feature = bore();
    feature.axes = axes;
    CountingMap counts;
    for (const std::string& axis : axes) counts[{"bore", 1, "top", axis}].size = um(83'025);
    const auto line = radii(top_of(feature, counts));
    for (const double radius : line) EXPECT_NEAR(radius, line[0], 0.02);
  }
}

TEST(Outline, GoesThroughThreeDiametersToo) {
  Feature feature = bore();
  feature.axes = {"a", "b", "c"};
  CountingMap counts;
  counts[{"bore", 1, "top", "a"}].size = um(83'030);
  counts[{"bore", 1, "top", "b"}].size = um(83'010);
  counts[{"bore", 1, "top", "c"}].size = um(83'020);
  const Enlargement scale = enlargement(feature, {um(83'030), um(83'010), um(83'020)});
  const auto line = radii(top_of(feature, counts));
  const double step = static_cast<double>(um(10).pm()) * scale.per_pm;
  EXPECT_NEAR(line[0] - line[32], step, 0.03);   // a less c: 0 and 120 degrees
  EXPECT_NEAR(line[32] - line[16], step, 0.03);  // c less b: 60 degrees
}

TEST(Outline, StaysOpenWhileADiameterIsMissing) {
  const Drawing drawing = top_of(bore(), sizes({{"thrust", 83'020}}));
  EXPECT_EQ(count(drawing, Ink::outline, Shape::Kind::area), 0U);
  EXPECT_NE(std::ranges::find(drawing.shapes, "not read", &Shape::text), drawing.shapes.end());
  EXPECT_EQ(count(drawing, Ink::touch, Shape::Kind::circle), 2U);
}

TEST(Outline, MarksWhatIsBeyondALimitByItsShape) {
  const Drawing drawing = top_of(bore(), sizes({{"thrust", 83'036}, {"pin", 83'035}}));
  EXPECT_EQ(count(drawing, Ink::beyond, Shape::Kind::boxes), 2U);
  EXPECT_EQ(count(drawing, Ink::beyond, Shape::Kind::line), 4U);
  EXPECT_EQ(count(drawing, Ink::touch, Shape::Kind::circle), 2U);
}

TEST(Outline, StacksTheLevelsEachWithItsAxes) {
  const Drawing drawing = outlines(bore(), 1, {}, enlargement(bore(), {}), Unit::mm);
  EXPECT_NEAR(drawing.height, 3 * drawing.width, 1e-9);
  std::vector<double> heights;
  for (const Shape& shape : drawing.shapes)
    if (shape.ink == Ink::level) heights.push_back(shape.points[0].y);
  ASSERT_EQ(heights.size(), 3U);
  EXPECT_NEAR(heights[1] - heights[0], drawing.width, 1e-9);
  EXPECT_NEAR(heights[2] - heights[1], drawing.width, 1e-9);
  EXPECT_EQ(count(drawing, Ink::axis, Shape::Kind::words), 6U);
}

TEST(Outline, EnlargesByARoundNumberThatKeepsAllInsideThePicture) {
  EXPECT_EQ(enlargement(bore(), {um(83'010)}).times, 1000);
  EXPECT_EQ(enlargement(bore(), {um(83'060)}).times, 500);
  EXPECT_EQ(enlargement(bore(), {um(84'000)}).times, 20);
  EXPECT_EQ(enlargement(bore(), {um(1)}).times, 1);
  EXPECT_EQ(enlargement(bore(), {}).reference, Length::from_pm(83'017'500'000));
  Feature free = bore();
  free.limits = {};
  EXPECT_EQ(enlargement(free, {um(83'010), um(83'020)}).reference, um(83'015));
}

TEST(Outline, NeedsTwoAxesAndARoundThing) {
  EXPECT_TRUE(has_outline(bore()));
  Feature one = bore();
  one.axes = {"vertical"};
  EXPECT_FALSE(has_outline(one));
  Feature gap = bore();
  gap.kind = Kind::gap;
  EXPECT_FALSE(has_outline(gap));
}

}  // namespace
}  // namespace tenth::paper
