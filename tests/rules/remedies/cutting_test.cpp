#include <gtest/gtest.h>

#include "tests/rules/remedies/block.hpp"

namespace tenth {
namespace {

using testing::Block;
using testing::find;
using testing::len;

/// Two bores with limits of their own, one of them tight; 0.050 mm is the target.
Block tight_bore(const std::string& bore, const std::string& piston) {
  Block block(2);
  block.work.spec.unit = Unit::mm;
  block.pistons("0.045", "0.065").target = len("0.050");
  block.work.spec.features.front().limits = testing::limits("83.000", "83.035");
  block.read("bore", {bore, "83.010"});
  block.read("piston", {piston, "82.958"});
  block.stock.hones.push_back({"bore", len("0.050")});
  return block;
}

TEST(Honing, ABoreIsOpenedToItsTarget) {
  const RemedyList list = tight_bore("83.000", "82.960").remedies();
  const Remedy* const remedy = find(list, RemedyKind::hone);
  ASSERT_NE(remedy, nullptr) << testing::reasons(list);
  ASSERT_EQ(remedy->cuts.size(), 1U);
  EXPECT_EQ(remedy->cuts[0].now, len("83.000"));
  EXPECT_EQ(remedy->cuts[0].ask, len("83.010"));
  EXPECT_EQ(remedy->cuts[0].off, len("0.010"));
  EXPECT_TRUE(remedy->enough);
  EXPECT_EQ(remedy->off_target, len("0.002"));  // the other bore's
  EXPECT_EQ(
      remedy->text,
      "Cannot be undone: hone bore 1 from 83.0000 mm (3.26772 in) to 83.0100 mm (3.26811 in), 0.0100 mm (0.00039 in) "
      "more");
}

// engine-trade.md: a ring's gap grows by pi times the growth of its bore.
TEST(Honing, SaysHowFarTheRingGapsOpen) {
  const RemedyList list = tight_bore("83.000", "82.960").remedies();
  EXPECT_EQ(find(list, RemedyKind::hone)->cautions[0],
            "a bore that grows opens its ring gaps by pi x the growth: here by up to 0.0314 mm (0.00124 in)");
}

TEST(Honing, TheRingGapsOfTheBoreThatGrowsMostOpenMost) {
  Block block = tight_bore("83.000", "82.960");
  block.read("piston", {"82.960", "82.966"});  // the second bore is to grow by 0.006
  EXPECT_NE(find(block.remedies(), RemedyKind::hone)->cautions[0].find("by up to 0.0314 mm"), std::string::npos);
}

TEST(Honing, NeverPastTheBoresOwnLimit) {
  const RemedyList list = tight_bore("83.030", "82.995").remedies();
  const Remedy* const remedy = find(list, RemedyKind::hone);
  ASSERT_NE(remedy, nullptr);
  EXPECT_EQ(remedy->cuts[0].off, len("0.005"));
  EXPECT_FALSE(remedy->enough);
  EXPECT_NE(testing::reasons(list).find("the upper limit of bore forbids 0.0100 mm of the 0.0150 mm needed"),
            std::string::npos)
      << testing::reasons(list);
}

TEST(Honing, NeverPastWhatIsAllowed) {
  Block block = tight_bore("83.000", "82.960");
  block.stock.hones.front().most = len("0.004");
  const RemedyList list = block.remedies();
  EXPECT_EQ(find(list, RemedyKind::hone)->cuts[0].off, len("0.004"));
  EXPECT_NE(testing::reasons(list).find("the largest enlargement allowed forbids 0.0060 mm"), std::string::npos);
}

TEST(Honing, ABorePastItsLimitHasNoRemedyButAnotherPart) {
  const RemedyList list = tight_bore("83.036", "83.000").remedies();
  EXPECT_EQ(find(list, RemedyKind::hone), nullptr);
  EXPECT_NE(testing::reasons(list).find("it is past it already, and only another part helps"), std::string::npos)
      << testing::reasons(list);
  EXPECT_FALSE(list.suffices);
}

TEST(Honing, CannotCloseALooseFit) {
  const RemedyList list = tight_bore("83.030", "82.950").remedies();
  EXPECT_EQ(find(list, RemedyKind::hone), nullptr);
  EXPECT_NE(testing::reasons(list).find("it only opens a clearance, and this one is 0.0150 mm over its upper limit"),
            std::string::npos)
      << testing::reasons(list);
}

TEST(Honing, MatchingFirstLeavesLessToHone) {
  // As they are 0.035 and 0.051, exchanged 0.041 and 0.045: one is in either way, but only exchanged is the honing
  // that is allowed enough for the other.
  Block block = tight_bore("83.000", "82.965");
  block.work.spec.fits.front().match = true;
  block.stock.hones.front().most = len("0.009");
  block.work.engine.readings.clear();
  block.read("bore", {"83.000", "83.010"});
  block.read("piston", {"82.965", "82.959"});
  const RemedyList list = block.remedies();
  const Remedy* const both = find(list, RemedyKind::combined);
  ASSERT_NE(both, nullptr) << testing::reasons(list);
  EXPECT_TRUE(both->enough);
  EXPECT_EQ(both->undo, Undo::never);
  EXPECT_TRUE(both->text.starts_with("Cannot be undone: piston: bore 1 gets that of 2")) << both->text;
  ASSERT_EQ(both->parts.size(), 2U);
  for (const std::string& part : both->parts)
    EXPECT_NE(std::ranges::find(list.remedies, part, &Remedy::id), list.remedies.end());
  const auto second = std::ranges::find(list.remedies, both->parts[1], &Remedy::id);
  EXPECT_EQ(second->kind, RemedyKind::hone);
  EXPECT_EQ(second->cautions.front(), "only after " + both->parts[0]);
}

/// Ring gaps of 0.30 to 0.40 mm.
Block gaps(const std::vector<std::string>& sizes) {
  Block block(3);
  block.work.spec.unit = Unit::mm;
  block.work.feature("ring_gap", Kind::gap, testing::limits("0.30", "0.40"), 3);
  block.read("ring_gap", sizes);
  return block;
}

TEST(Filing, ATightGapGoesToTheMiddleOfItsLimits) {
  const RemedyList list = gaps({"0.28", "0.35", "0.33"}).without_stock();
  const Remedy* const remedy = find(list, RemedyKind::file);
  ASSERT_NE(remedy, nullptr) << testing::reasons(list);
  ASSERT_EQ(remedy->cuts.size(), 1U);
  EXPECT_EQ(remedy->cuts[0].ask, len("0.35"));
  EXPECT_EQ(remedy->cuts[0].off, len("0.07"));
  EXPECT_TRUE(remedy->enough);
  EXPECT_EQ(remedy->undo, Undo::never);
  EXPECT_TRUE(remedy->text.starts_with("Cannot be undone: file ring_gap 1 from 0.2800 mm")) << remedy->text;
  EXPECT_TRUE(list.suffices);
  EXPECT_EQ(remedy->fit, "");
  EXPECT_EQ(remedy->feature, "ring_gap");
}

TEST(Filing, AGapPastItsLimitWantsAnotherPart) {
  Block block = gaps({"0.42", "0.35", "0.33"});
  const RemedyList list = block.remedies();
  EXPECT_TRUE(list.remedies.empty());
  EXPECT_EQ(
      testing::reasons(list),
      "ring_gap 1: it is 0.0200 mm (0.00079 in) over its upper limit, and a gap cannot be closed: only another part "
      "helps\n");
  EXPECT_FALSE(list.suffices);
  block.stock.parts = {{"ring-a", "ring_gap", len("0.41"), 1}, {"ring-b", "ring_gap", len("0.36"), 1}};
  const RemedyList with_spares = block.remedies();
  const Remedy* const remedy = find(with_spares, RemedyKind::part);
  ASSERT_NE(remedy, nullptr);
  EXPECT_EQ(remedy->takes[0].part, "ring-b");
  EXPECT_TRUE(remedy->enough);
  EXPECT_TRUE(with_spares.suffices);
}

TEST(Filing, AGapWhoseReadingsLieFarApartIsNotFiledPastItsLimit) {
  Block block(1);
  block.work.spec.unit = Unit::mm;
  block.work.feature("ring_gap", Kind::gap, testing::limits("0.30", "0.40"), 1).levels = {"top", "bottom"};
  block.work.read("ring_gap/1/top", "0.25");
  block.work.read("ring_gap/1/bottom", "0.39");
  const RemedyList list = block.without_stock();
  EXPECT_EQ(find(list, RemedyKind::file), nullptr);
  EXPECT_NE(testing::reasons(list).find("filing to the middle would leave the upper limit"), std::string::npos)
      << testing::reasons(list);
}

TEST(Filing, ASpareIsUsedOnce) {
  Block block = gaps({"0.42", "0.43", "0.33"});
  block.stock.parts = {{"ring", "ring_gap", len("0.36"), 1}};
  const RemedyList list = block.remedies();
  EXPECT_EQ(find(list, RemedyKind::part)->takes.size(), 1U);
  EXPECT_FALSE(list.suffices);
}

}  // namespace
}  // namespace tenth
