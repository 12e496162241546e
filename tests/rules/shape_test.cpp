#include "rules/shape.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::Workpiece;

Workpiece bore(const std::vector<std::string>& levels, const std::vector<std::string>& sizes) {
  Workpiece work;
  work.feature("bore", Kind::inside, {}).levels = levels;
  for (std::size_t i = 0; i < sizes.size(); ++i) work.read("bore/1/" + levels[i], sizes[i]);
  return work;
}

std::optional<FoundShape> shape(Workpiece work) {
  return shape_of(work.counts(), *work.spec.find("bore"), 1);
}

const std::vector<std::string> kThree = {"top", "mid", "low"};

TEST(Shape, ABarrelIsWiderInTheMiddle) {
  const auto found = shape(bore(kThree, {"83.000", "83.012", "83.004"}));
  EXPECT_EQ(found->shape, Shape::barrel);
  EXPECT_EQ(found->belly, len("0.010"));
  EXPECT_EQ(found->taper, len("0.004"));
}

TEST(Shape, AWaistIsNarrowerInTheMiddle) {
  EXPECT_EQ(shape(bore(kThree, {"83.010", "83.000", "83.010"}))->shape, Shape::waist);
  EXPECT_EQ(shape(bore(kThree, {"83.010", "83.000", "83.010"}))->belly, len("-0.010"));
}

TEST(Shape, ATaperHasASign) {
  EXPECT_EQ(shape(bore(kThree, {"83.000", "83.005", "83.010"}))->shape, Shape::last_wider);
  EXPECT_EQ(shape(bore(kThree, {"83.010", "83.005", "83.000"}))->shape, Shape::first_wider);
  EXPECT_EQ(shape(bore(kThree, {"83.010", "83.005", "83.000"}))->taper, len("-0.010"));
}

TEST(Shape, TwoLevelsHaveATaperAndNoBelly) {
  const auto found = shape(bore({"top", "low"}, {"83.000", "83.004"}));
  EXPECT_EQ(found->taper, len("0.004"));
  EXPECT_FALSE(found->belly);
}

TEST(Shape, StraightWhereNothingDiffers) {
  EXPECT_EQ(shape(bore(kThree, {"83", "83", "83"}))->shape, Shape::straight);
}

TEST(Shape, NoneFromPartOfTheReadingsOrOfOneLevel) {
  EXPECT_FALSE(shape(bore(kThree, {"83.000", "83.012"})));
  EXPECT_FALSE(shape(bore({"top"}, {"83.000"})));
}

TEST(Shape, IsToldOnlyWhereTheSpecAsks) {
  Workpiece work = bore(kThree, {"83.000", "83.012", "83.004"});
  EXPECT_FALSE(work.judged("bore").shape);
  work.spec.features[0].shape = Shape::barrel;
  EXPECT_EQ(work.judged("bore").shape->shape, Shape::barrel);
}

RC_GTEST_PROP(Shape, ACommonOffsetChangesNothing, ()) {
  const auto size = [] { return Length::from_pm(*rc::gen::inRange<std::int64_t>(83'000'000'000, 83'050'000'000)); };
  const Length offset = Length::from_pm(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000));
  Workpiece plain = bore(kThree, {}), moved = bore(kThree, {});
  for (const std::string& level : kThree) {
    const Length here = size();
    plain.read("bore/1/" + level, here);
    moved.read("bore/1/" + level, here + offset);
  }
  RC_ASSERT(shape(plain)->taper == shape(moved)->taper);
  RC_ASSERT(shape(plain)->shape == shape(moved)->shape);
}

}  // namespace
}  // namespace tenth
