#include "html_support.hpp"
#include "sample_bench.hpp"
#include "schema/export/html/bar.hpp"

namespace tenth::page {
namespace {

using sample::um;

double attribute_of(const std::string& svg, const std::string& shape, const std::string& key) {
  const auto at = svg.find(key + "=\"", svg.find("class=\"" + shape + "\""));
  return std::stod(svg.substr(at + key.size() + 2));
}

TEST(Bar, PutsFiguresWhereTheyLieBetweenTheLimits) {
  const std::string svg = bar({um(40), um(45), um(50)}, {um(30), um(60)}, um(40));
  // The limits take the middle half of 150 units.
  EXPECT_NEAR(attribute_of(svg, "allowed", "x"), 37.5, 0.01);
  EXPECT_NEAR(attribute_of(svg, "allowed", "width"), 75, 0.01);
  EXPECT_NEAR(attribute_of(svg, "measured", "x"), 62.5, 0.01);
  EXPECT_NEAR(attribute_of(svg, "measured", "width"), 25, 0.01);
  EXPECT_TRUE(has(svg, "class=\"mean\" r=\"2.6\" cy=\"9.00\" cx=\"75.00\""));
  EXPECT_TRUE(has(svg, "class=\"target\" d=\"M59.50 0"));
}

TEST(Bar, ShowsWhatLiesFarBeyondAtTheEdge) {
  EXPECT_NEAR(attribute_of(bar({um(900), um(900), um(900)}, {um(30), um(60)}, {}), "measured", "x"), 150, 0.01);
}

TEST(Bar, TakesOneLimit) {
  const std::string upper = bar({um(10), um(10), um(10)}, {{}, um(20)}, {});
  EXPECT_EQ(times(upper, "class=\"limit\""), 1U);
  EXPECT_NEAR(attribute_of(upper, "allowed", "x"), 0, 0.01);
  EXPECT_EQ(times(bar({um(10), um(10), um(10)}, {um(5), {}}, {}), "class=\"limit\""), 1U);
}

TEST(Bar, IsEmptyWithoutFiguresOrLimits) {
  EXPECT_EQ(bar({}, {um(30), um(60)}, {}), "");
  EXPECT_EQ(bar({um(1), um(1), um(1)}, {}, {}), "");
  EXPECT_EQ(bar({um(30), um(30), um(30)}, {um(30), um(30)}, {}), "");
}

}  // namespace
}  // namespace tenth::page
