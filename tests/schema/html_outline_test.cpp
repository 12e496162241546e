#include <cmath>
#include <sstream>

#include "html_support.hpp"
#include "sample_bench.hpp"
#include "schema/export/html/outline.hpp"

namespace tenth::page {
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

std::string top_of(const Feature& feature, const CountingMap& counts) {
  Feature one = feature;
  one.levels = {"top"};
  std::vector<Length> all;
  for (const auto& [place, counting] : counts) all.push_back(counting.size);
  return outlines(one, 1, counts, enlargement(one, all), Unit::mm);
}

/// The points of the closed line as radii around the centre of the thin circles.
std::vector<double> radii(const std::string& svg) {
  const auto number_after = [&](const std::string& key, std::size_t from) {
    return std::stod(svg.substr(svg.find(key, from) + key.size()));
  };
  const double cx = number_after("cx=\"", 0), cy = number_after("cy=\"", 0);
  std::istringstream points(svg.substr(svg.find("points=\"") + 8));
  std::vector<double> result;
  double x = 0, y = 0;
  char comma = 0;
  while (points >> x >> comma >> y) result.push_back(std::hypot(x - cx, y - cy));
  return result;
}

TEST(Outline, GoesThroughTheDiametersRead) {
  const CountingMap counts = sizes({{"thrust", 83'030}, {"pin", 83'010}});
  const Enlargement scale = enlargement(bore(), {um(83'030), um(83'010)});
  const auto line = radii(top_of(bore(), counts));
  ASSERT_EQ(line.size(), 96U);
  // Upright, to the right, and both opposite; the same everywhere between by a quarter of a turn's symmetry.
  const double difference = static_cast<double>(um(20).pm()) * scale.px_per_pm;
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
  const double step = static_cast<double>(um(10).pm()) * scale.px_per_pm;
  EXPECT_NEAR(line[0] - line[32], step, 0.03);   // a less c: 0 and 120 degrees
  EXPECT_NEAR(line[32] - line[16], step, 0.03);  // c less b: 60 degrees
}

TEST(Outline, StaysOpenWhileADiameterIsMissing) {
  const std::string svg = top_of(bore(), sizes({{"thrust", 83'020}}));
  EXPECT_FALSE(has(svg, "<polygon"));
  EXPECT_TRUE(has(svg, "not read"));
  EXPECT_EQ(times(svg, "class=\"touch\""), 2U);
}

TEST(Outline, MarksWhatIsBeyondALimitByItsShape) {
  const std::string svg = top_of(bore(), sizes({{"thrust", 83'036}, {"pin", 83'035}}));
  EXPECT_EQ(times(svg, "class=\"beyond\""), 2U);
  EXPECT_EQ(times(svg, "class=\"touch\""), 2U);
  EXPECT_EQ(unbalanced(svg), "");
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
}  // namespace tenth::page
