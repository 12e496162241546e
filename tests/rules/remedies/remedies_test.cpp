#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <ctime>

#include "tests/rules/remedies/block.hpp"

namespace tenth {
namespace {

using testing::Block;
using testing::find;
using testing::len;

/// One tight main that halves, or a grinder, can help.
Block tight_main() {
  Block block(1);
  block.mains("0.0020 in", "0.0030 in");
  block.read("main_bearing", {"2.7512 in"});
  block.read("main_journal", {"2.7500 in"});
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.fitted(1, "std-upper", "std-lower");
  block.grind();
  return block;
}

TEST(Remedies, NothingIsAskedWhereAllIsIn) {
  Block block = tight_main();
  block.work.read("main_bearing/1", "2.7525 in");
  const RemedyList list = block.remedies();
  EXPECT_TRUE(list.remedies.empty());
  EXPECT_TRUE(list.none.empty());
  EXPECT_TRUE(list.suffices);
}

TEST(Remedies, WhatIsUndoneFreelyComesBeforeWhatIsNot) {
  Block block = tight_main();
  block.shell("thin", Half::lower, "0.0950 in", 1);
  const RemedyList list = block.remedies();
  ASSERT_EQ(list.remedies.size(), 2U);
  EXPECT_EQ(list.remedies[0].id, "r1");
  EXPECT_EQ(list.remedies[0].kind, RemedyKind::shells);
  EXPECT_EQ(list.remedies[1].id, "r2");
  EXPECT_EQ(list.remedies[1].kind, RemedyKind::grind);
  EXPECT_TRUE(list.remedies[1].text.starts_with("Cannot be undone"));
}

/// Positions are counted along the crank, labels are the builder's: on a vee engine another number.
TEST(Remedies, NamesIndexesAsTheBuilderDoes) {
  testing::Workpiece work;
  Feature& gap = work.feature("ring_gap", Kind::gap, testing::limits("0.30", "0.45"), 3);
  gap.labels = {"4", "3", "2"};
  work.read("ring_gap/1", "0.40");
  work.read("ring_gap/2", "0.50");
  work.read("ring_gap/3", "0.25");
  const RemedyList list = remedies(work.done(), nullptr);
  ASSERT_EQ(list.none.size(), 1U);
  EXPECT_EQ(list.none.front().index, 2);
  EXPECT_EQ(list.none.front().label, "3");
  ASSERT_EQ(list.remedies.size(), 1U);
  ASSERT_EQ(list.remedies.front().after.size(), 3U);
  EXPECT_EQ(list.remedies.front().after[2].label, "2");
}

TEST(Remedies, EnoughComesBeforeNotEnough) {
  Block block = tight_main();
  block.shell("thin", Half::lower, "0.0957 in", 1);  // 0.0015 in: nearer, and still out
  const RemedyList list = block.remedies();
  ASSERT_EQ(list.remedies.size(), 2U);
  EXPECT_EQ(list.remedies[0].kind, RemedyKind::grind);
  EXPECT_TRUE(list.remedies[0].enough);
  EXPECT_FALSE(list.remedies[1].enough);
  EXPECT_TRUE(list.suffices);
}

TEST(Remedies, WhyTheFreeOnesDoNotHelpIsToldBesideOneThatCannotBeUndone) {
  Block block = tight_main();
  block.fitted(1, "unknown", "unknown");
  const RemedyList list = block.remedies();
  EXPECT_NE(find(list, RemedyKind::grind), nullptr);
  EXPECT_EQ(testing::reasons(list), "main_clearance 1: no wall known for the halves fitted\n");
}

TEST(Remedies, WithSeveralFitsOutEachNeedsOne) {
  Block block = tight_main();
  block.pistons("0.0035 in", "0.0045 in");
  block.read("bore", {"4.0010 in"});
  block.read("piston", {"4.0000 in"});
  const RemedyList list = block.remedies();
  EXPECT_TRUE(find(list, RemedyKind::grind)->enough);
  EXPECT_FALSE(list.suffices);
  EXPECT_NE(testing::reasons(list).find("piston_clearance 1: the stock has nothing that changes it"), std::string::npos)
      << testing::reasons(list);
}

TEST(Remedies, WithoutAStockItSaysSo) {
  const RemedyList list = tight_main().without_stock();
  EXPECT_TRUE(list.remedies.empty());
  EXPECT_FALSE(list.suffices);
  EXPECT_NE(testing::reasons(list).find("none was given"), std::string::npos);
}

TEST(Remedies, AFormThatIsOutIsNotMendedByAClearance) {
  Block block = tight_main();
  block.pistons("0.0005 in", "0.0045 in");
  block.work.spec.features[2].axes = {"thrust", "pin"};
  block.work.spec.features[2].out_of_round = len("0.0005 in");
  block.work.read("bore/1//thrust", "4.0010 in");
  block.work.read("bore/1//pin", "4.0020 in");
  block.read("piston", {"4.0000 in"});
  const RemedyList list = block.remedies();
  EXPECT_FALSE(list.suffices);
  EXPECT_NE(testing::reasons(list).find("bore 1: out_of_round 0.00100 in"), std::string::npos)
      << testing::reasons(list);
}

TEST(Remedies, GrindingMendsAJournalsOwnForm) {
  Block block = tight_main();
  block.work.spec.features[1].axes = {"x", "y"};
  block.work.spec.features[1].out_of_round = len("0.0002 in");
  block.work.engine.readings.clear();
  block.read("main_bearing", {"2.7512 in"});
  block.work.read("main_journal/1//x", "2.7500 in");
  block.work.read("main_journal/1//y", "2.7495 in");
  const RemedyList list = block.remedies();
  EXPECT_NE(find(list, RemedyKind::grind), nullptr) << testing::reasons(list);
  EXPECT_TRUE(list.suffices) << testing::reasons(list);
}

TEST(Remedies, HalvesAfterGrindingWhereNeitherAloneIsEnough) {
  // Two mains whose bearings differ by 0.0020 in: no common size, and no halves thin enough by themselves.
  Block block(2);
  block.mains("0.0020 in", "0.0030 in").target = len("0.0025 in");
  block.read("main_bearing", {"2.7500 in", "2.7520 in"});
  block.read("main_journal", {"2.7500 in", "2.7500 in"});
  block.grind();
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.shell("thick-lower", Half::lower, "0.0965 in", 1);
  block.shell("thin-lower", Half::lower, "0.0945 in", 1);
  block.fitted_everywhere("std-upper", "std-lower");
  const RemedyList list = block.remedies();
  const Remedy* const both = find(list, RemedyKind::combined);
  ASSERT_NE(both, nullptr) << testing::reasons(list);
  EXPECT_TRUE(both->enough);
  EXPECT_TRUE(list.suffices);
  EXPECT_EQ(list.remedies.front().id, "r1");
  EXPECT_EQ(list.remedies.front().kind, RemedyKind::combined);
  for (const Remedy& remedy : list.remedies) EXPECT_EQ(remedy.enough, remedy.kind == RemedyKind::combined) << remedy.id;
}

TEST(Remedies, AnotherFitOfAPartThatIsChangedIsNamed) {
  Block block = tight_main();
  block.work.fit("thrust_clearance", "main_bearing", "main_journal", {});
  const RemedyList list = block.remedies();
  ASSERT_FALSE(list.remedies.empty());
  for (const Remedy& remedy : list.remedies)
    EXPECT_EQ(remedy.cautions.back(), "it changes thrust_clearance too, which is not looked at here") << remedy.text;
  block.work.spec.fits.pop_back();
  for (const Remedy& remedy : block.remedies().remedies)
    EXPECT_EQ(remedy.cautions.back().find("it changes"), std::string::npos);
}

TEST(Remedies, FeaturesOfTheStockThatTheEngineLacksAreSkipped) {
  Block block = tight_main();
  block.stock.hones.push_back({"cam_bore", len("0.05")});
  block.stock.parts.push_back({"cam", "camshaft", len("50"), 1});
  Shell shell = block.stock.shells.front();
  shell.feature = "cam_bearing";
  shell.id = "cam-shell";
  block.stock.shells.push_back(shell);
  EXPECT_EQ(block.remedies().remedies.size(), 1U);
}

/// A random block with a bit of everything on the shelf.
Block random_block() {
  Block block(3);
  block.mains("0.040", "0.060");
  block.pistons("0.030", "0.050").match = true;
  const auto near = [](const char* base, int um) { return len(base) + Length::from_um(*rc::gen::inRange(0, um)); };
  for (int index = 1; index <= 3; ++index) {
    const std::string at = "/" + std::to_string(index);
    block.work.read("main_bearing" + at, near("70.030", 60));
    block.work.read("main_journal" + at, near("69.990", 15));
    block.work.read("bore" + at, near("83.000", 40));
    block.work.read("piston" + at, near("82.950", 30));
    for (Reading& reading : block.work.engine.readings) reading.uncertainty = len("0.002");
  }
  for (const char* const id : {"a", "b", "c", "d"})
    block.shell(id, *rc::gen::element(Half::upper, Half::lower, Half::either), exact_mm(near("2.430", 20)),
                *rc::gen::inRange(0, 3));
  block.fitted_everywhere("a", "b");
  Grind& grind = block.grind();
  grind.tolerance = len("0.003");
  grind.all_alike = *rc::gen::arbitrary<bool>();
  grind.steps = {len("0.25")};
  grind.standard = testing::limits("69.99", "70.01");
  block.stock.hones.push_back({"bore", len("0.02")});
  block.stock.parts.push_back({"spare", "piston", near("82.950", 30), 1});
  return block;
}

int in_now(Block& block, const std::string& fit) {
  const Report report = judge(block.work.done());
  return static_cast<int>(std::ranges::count_if(
      report.fits, [&](const FitResult& result) { return result.fit == fit && result.verdict == Verdict::in; }));
}

RC_GTEST_PROP(RemediesProperty, AreInOrderAndNeverWorseThanDoingNothing, ()) {
  Block block = random_block();
  const RemedyList list = block.remedies();
  for (std::size_t i = 0; i < list.remedies.size(); ++i) {
    const Remedy& remedy = list.remedies[i];
    RC_ASSERT(remedy.id == "r" + std::to_string(i + 1));
    const bool second = !remedy.cautions.empty() && remedy.cautions.front().starts_with("only after");
    const bool with_shells = remedy.kind == RemedyKind::grind && !remedy.enough;  // the first of two
    if (!second && !with_shells) RC_ASSERT(remedy.in >= in_now(block, remedy.fit));
    RC_ASSERT((remedy.undo == Undo::never) == remedy.text.starts_with("Cannot be undone"));
    RC_ASSERT(remedy.enough == (remedy.in == remedy.of));
    if (i == 0) continue;
    const Remedy& before = list.remedies[i - 1];
    RC_ASSERT(before.enough || !remedy.enough);
    if (before.enough == remedy.enough) RC_ASSERT(before.undo <= remedy.undo);
  }
}

// The goal is 10 ms for a V8 after every reading; a loaded machine gets three times that of processor time.
TEST(RemediesSpeed, AV8WithoutAStock) {
  Block block(8);
  block.pistons("0.040", "0.050").match = true;
  block.work.spec.features[0].levels = {"top", "middle", "bottom"};
  block.work.spec.features[0].axes = {"thrust", "pin"};
  for (int index = 1; index <= 8; ++index) {
    const std::string at = std::to_string(index);
    for (const char* const level : {"top", "middle", "bottom"})
      for (const char* const axis : {"thrust", "pin"})
        block.work.read("bore/" + at + "/" + level + "/" + axis, len("101.60") + Length::from_um(index * 3 % 8));
    block.work.read("piston/" + at, len("101.55") + Length::from_um(index * 5 % 12));
  }
  block.work.feature("ring_gap", Kind::gap, testing::limits("0.4", "0.5"), 8);
  for (int index = 1; index <= 8; ++index) block.work.read("ring_gap/" + std::to_string(index), "0.38");
  block.work.done();
  const std::clock_t began = std::clock();
  const RemedyList list = remedies(block.work.engine, nullptr);
  EXPECT_LT(static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC, 0.030);
  EXPECT_FALSE(list.remedies.empty());
}

/// Lengths at the ends of what may be written: nothing leaves 64 bits (run under UBSan to see it).
TEST(RemediesEdges, LengthsOfAHundredMetres) {
  Block block(2);
  block.mains("-100000", "100000").target = len("100000");
  block.pistons("99999", "100000").match = true;
  for (int index = 1; index <= 2; ++index) {
    block.work.read("main_bearing/" + std::to_string(index), "-100000");
    block.work.read("main_journal/" + std::to_string(index), "100000");
    block.work.read("bore/" + std::to_string(index), "100000");
    block.work.read("piston/" + std::to_string(index), "-100000");
  }
  block.shell("thick", Half::either, "100000", 4);
  block.shell("thin", Half::either, "0.000000001", 4).wall = Wall{Length::from_pm(1), kLongest};
  block.fitted_everywhere("thick", "thick");
  Grind& grind = block.grind();
  grind.tolerance = grind.cleanup = kLongest;
  grind.standard = {kLongest, kLongest};
  grind.steps = {kLongest};
  block.stock.hones.push_back({"bore", kLongest});
  block.stock.parts.push_back({"spare", "piston", kLongest, 3});
  const RemedyList list = block.remedies();
  EXPECT_FALSE(list.suffices);
}

}  // namespace
}  // namespace tenth
