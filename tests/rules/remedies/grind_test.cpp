#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "rules/remedies/journals.hpp"
#include "rules/remedies/offer.hpp"
#include "tests/rules/remedies/block.hpp"

namespace tenth {
namespace {

using testing::Block;
using testing::find;
using testing::len;

/// Three tight mains of about 0.0010 in, to be 0.0020 to 0.0030 in.
Block tight_mains() {
  Block block(3);
  block.mains("0.0020 in", "0.0030 in").target = len("0.0024 in");
  block.read("main_bearing", {"2.7510 in", "2.7511 in", "2.7512 in"});
  block.read("main_journal", {"2.7500 in", "2.7499 in", "2.7500 in"});
  block.grind();
  return block;
}

const Remedy& grinding(const RemedyList& list) {
  const Remedy* const remedy = find(list, RemedyKind::grind);
  if (remedy == nullptr) throw std::runtime_error("no grinding: " + testing::reasons(list));
  return *remedy;
}

TEST(Grinding, OneCommonSizeNearestToTheMeanLessTheTarget) {
  const RemedyList list = tight_mains().remedies();
  const Remedy& remedy = grinding(list);
  ASSERT_EQ(remedy.cuts.size(), 3U);
  EXPECT_EQ(remedy.cuts[1], (CutStep{2, "2", len("2.7499 in"), len("2.7487 in"), len("2.7485 in"), len("2.7489 in"),
                                     len("0.0012 in")}));
  for (const CutStep& cut : remedy.cuts) EXPECT_EQ(cut.ask, len("2.7487 in"));
  EXPECT_TRUE(remedy.enough);
  EXPECT_TRUE(list.suffices);
  EXPECT_EQ(remedy.undo, Undo::never);
  EXPECT_EQ(remedy.feature, "main_journal");
  EXPECT_EQ(remedy.undersize, std::nullopt);
}

TEST(Grinding, AfterwardsTheExtremesAreThoseOfTheTolerance) {
  const Remedy remedy = grinding(tight_mains().remedies());
  EXPECT_EQ(remedy.after[0].min, len("0.0021 in"));
  EXPECT_EQ(remedy.after[0].mean, len("0.0023 in"));
  EXPECT_EQ(remedy.after[0].max, len("0.0025 in"));
  EXPECT_EQ(remedy.after[2].max, len("0.0027 in"));
}

TEST(Grinding, TheWindowHoldsTheSizeWhereTheTargetLiesBeyond) {
  Block block = tight_mains();
  block.work.spec.fits.front().target = len("0.0030 in");
  // Upper limit at 3: 2.7512 − 0.0030 + 0.0002.
  EXPECT_EQ(grinding(block.remedies()).cuts[0].ask, len("2.7484 in"));
}

TEST(Grinding, ItTakesOffWhatCleaningUpNeeds) {
  Block block = tight_mains();
  block.stock.grinds.front().cleanup = len("0.0014 in");
  EXPECT_EQ(grinding(block.remedies()).cuts[0].ask, len("2.7485 in"));  // 2.7499 − 0.0014
}

TEST(Grinding, WithALowerLimitAloneItTakesOffTheLeast) {
  Block block = tight_mains();
  block.work.spec.fits.front().target.reset();
  block.work.spec.fits.front().limits.upper.reset();
  EXPECT_EQ(grinding(block.remedies()).cuts[0].ask, len("2.7488 in"));  // 2.7510 − 0.0020 − 0.0002
}

TEST(Grinding, TheTextIsForAGrinder) {
  Block block = tight_mains();
  block.stock.grinds.front().hardening = "renew hardening";
  const Remedy remedy = grinding(block.remedies());
  EXPECT_EQ(
      remedy.text,
      "Cannot be undone: grind main_journal 1, 2, 3 to 2.74870 in (69.8170 mm), plus or minus 0.00020 in (0.0051 mm); "
      "not to be touched: every other journal, the fillets and the thrust faces");
  EXPECT_EQ(remedy.cautions, (std::vector<std::string>{"renew hardening", "one ground: all ground",
                                                       "the grinder and the part maker decide"}));
}

TEST(Grinding, AnImpossibleCaseNamesTheLimitsAndByHowMuch) {
  Block block = tight_mains();
  block.stock.grinds.front().tolerance = len("0.0005 in");
  const RemedyList list = block.remedies();
  EXPECT_EQ(find(list, RemedyKind::grind), nullptr);
  EXPECT_NE(
      testing::reasons(list).find(
          "no common size: the upper limit of the clearance at 3 asks for at least 2.74870 in (69.8170 mm), the lower "
          "limit of the clearance at 1 allows at most 2.74850 in (69.8119 mm): 0.00020 in (0.0051 mm) too little"),
      std::string::npos)
      << testing::reasons(list);
  EXPECT_FALSE(list.suffices);
}

TEST(Grinding, TheLastSizeForbidsToo) {
  Block block = tight_mains();
  block.stock.grinds.front().smallest = len("2.7495 in");
  const RemedyList list = block.remedies();
  EXPECT_EQ(find(list, RemedyKind::grind), nullptr);
  EXPECT_NE(testing::reasons(list).find("the last size of this crank asks for at least 2.74970 in"), std::string::npos)
      << testing::reasons(list);
}

/// No common size: the second bearing is 0.0020 in larger than the first.
Block unlike_mains() {
  Block block(2);
  block.mains("0.0020 in", "0.0030 in").target = len("0.0025 in");
  block.read("main_bearing", {"2.7510 in", "2.7530 in"});
  block.read("main_journal", {"2.7500 in", "2.7505 in"});
  block.grind();
  return block;
}

TEST(Grinding, SingleJournalsOnlyWhereTheyNeedNotBeAlike) {
  Block block = unlike_mains();
  EXPECT_EQ(find(block.remedies(), RemedyKind::grind), nullptr);
  block.stock.grinds.front().all_alike = false;
  const Remedy remedy = grinding(block.remedies());
  ASSERT_EQ(remedy.cuts.size(), 1U);
  EXPECT_EQ(remedy.cuts[0].ask, len("2.7485 in"));
  EXPECT_TRUE(remedy.enough);
  EXPECT_NE(remedy.text.find("not to be touched: main_journal 2, every other journal"), std::string::npos)
      << remedy.text;
}

/// To be ground to a step, with shells of that undersize on the shelf.
Block with_steps() {
  Block block = unlike_mains();
  block.stock.grinds.front().any_size = false;
  block.stock.grinds.front().steps = {len("0.010 in"), len("0.020 in")};
  for (const auto& [id, undersize, wall] :
       {std::tuple("std", "0", "0.0960 in"), {"ten-thick", "0.010 in", "0.1010 in"}, {"ten", "0.010 in", "0.1000 in"}})
    for (const Half half : {Half::upper, Half::lower}) {
      Shell& shell = block.shell(std::string(id) + (half == Half::upper ? "-upper" : "-lower"), half, wall, 2);
      shell.series = "A";
      shell.undersize = len(undersize);
    }
  block.fitted_everywhere("std-upper", "std-lower");
  return block;
}

TEST(Grinding, AStepAsksForTheMiddleOfTheStandardLessTheStep) {
  Block block = with_steps();
  const Remedy remedy = grinding(block.remedies());
  EXPECT_EQ(remedy.undersize, len("0.010 in"));
  EXPECT_EQ(remedy.cuts[0].ask, len("2.7395 in"));
  // Bearing 1: 2.7510 − 2.7395 = 0.0115 less (0.1000 − 0.0960) less (0.1010 − 0.0960): 0.0025 in.
  EXPECT_EQ(remedy.after[0].mean, len("0.0025 in"));
  EXPECT_EQ(remedy.after[1].mean, len("0.0035 in"));  // with two thick halves, 0.0135 − 0.0100
  EXPECT_EQ(remedy.halves.size(), 4U);
  EXPECT_NE(remedy.text.find("undersize 0.01000 in"), std::string::npos) << remedy.text;
}

TEST(Grinding, HalvesOfAnotherUndersizeDoNotGoWithAStep) {
  Block block = with_steps();
  Shell& shell = block.shell("twenty-lower", Half::lower, "0.1020 in", 2);  // its wall would suit main 2
  shell.series = "A";
  shell.undersize = len("0.020 in");
  EXPECT_EQ(grinding(block.remedies()).after[1].mean, len("0.0035 in"));
}

TEST(Grinding, AStepNeedsShellsForEverySeat) {
  Block block = with_steps();
  for (Shell& shell : block.stock.shells)
    if (shell.id == "ten-lower" || shell.id == "ten-thick-lower") shell.count = 0;
  EXPECT_EQ(find(block.remedies(), RemedyKind::grind), nullptr);
}

TEST(Grinding, TwoRodsOnOnePinBothNarrowTheWindow) {
  Block block(1);
  block.work.feature("rod_bearing", Kind::inside, {}, 2);
  block.work.feature("main_journal", Kind::outside, {});
  Fit& fit = block.work.fit("rod_clearance", "rod_bearing", "main_journal", testing::limits("0.0020 in", "0.0030 in"));
  fit.couples = {{1, 1, ""}, {2, 1, ""}};
  block.read("rod_bearing", {"2.1010 in", "2.1012 in"});
  block.read("main_journal", {"2.1000 in"});
  block.grind().standard = testing::limits("2.0990 in", "2.1000 in");
  const Remedy remedy = grinding(block.remedies());
  ASSERT_EQ(remedy.cuts.size(), 1U);
  EXPECT_EQ(remedy.cuts[0].ask, len("2.0986 in"));  // mean of 2.1010 and 2.1012 less 0.0025
  EXPECT_TRUE(remedy.enough);
}

/// A size is in the window exactly when every fit is in at both ends of its tolerance and all cleans up.
RC_GTEST_PROP(GrindingProperty, TheWindowIsThatOfAScanOfAllSizes, ()) {
  Block block(2);
  block.mains("0.050", "0.075");
  for (int index = 1; index <= 2; ++index) {
    block.work.read("main_bearing/" + std::to_string(index), Length::from_um(*rc::gen::inRange(60'060, 60'120)));
    block.work.read("main_journal/" + std::to_string(index), Length::from_um(*rc::gen::inRange(60'030, 60'060)));
  }
  Grind& grind = block.grind();
  grind.tolerance = Length::from_um(*rc::gen::inRange(0, 14));
  grind.cleanup = Length::from_um(*rc::gen::inRange(0, 20));
  grind.smallest = Length::from_um(*rc::gen::inRange(59'940, 60'050));
  const Setup setup = setup_of(block.work.done(), block.work.spec.fits.front());
  const auto journals = journals_of(setup).all;
  const Window window = window_of(setup, grind, journals);
  for (int um = 59'930; um <= 60'080; ++um) {
    const Length size = Length::from_um(um);
    Setup ground = setup;
    for (const Journal& journal : journals) set_outside(ground, journal.index, size, grind.tolerance);
    bool may = size - grind.tolerance >= *grind.smallest;
    for (const FitResult& fit : judged(ground)) may = may && fit.verdict == Verdict::in;
    for (const Journal& journal : journals) may = may && size <= journal.least - grind.cleanup;
    RC_ASSERT(may == (*window.floor <= size && size <= *window.ceiling));
  }
}

/// Three mains, some halves on the shelf, and a grinder who keeps any size.
Block random_mains() {
  const auto um = [](int from, int until) { return Length::from_um(*rc::gen::inRange(from, until)); };
  Block block(3);
  block.mains("0.040", "0.060");
  for (int index = 1; index <= 3; ++index) {
    block.work.read("main_bearing/" + std::to_string(index), um(70'000, 70'080));
    block.work.read("main_journal/" + std::to_string(index), um(69'980, 69'990));
    block.fitted(index, *rc::gen::element("a", "c"), *rc::gen::element("b", "d"));
  }
  for (const char* const id : {"a", "b", "c", "d", "e", "f"})
    block.shell(id, (id[0] - 'a') % 2 == 0 ? Half::upper : Half::lower, exact_mm(um(2400, 2450)),
                *rc::gen::inRange(0, 3));
  Grind& grind = block.grind();
  grind.tolerance = um(0, 6);
  grind.cleanup = um(0, 15);
  grind.smallest = len("69.945");
  return block;
}

/// One of all sizes, with the best halves for it, is enough.
bool some_size_is_enough(const Setup& setup, const Stock& stock) {
  const Grind& grind = stock.grinds.front();
  const auto journals = journals_of(setup).all;
  for (Length size = *grind.smallest; size < len("69.990"); size = size + Length::from_um(1)) {
    if (!can_be_ground_to(grind, journals, size)) continue;
    Setup ground = setup;
    for (const Journal& journal : journals) set_outside(ground, journal.index, size, grind.tolerance);
    Obstacles unheard;
    if (const auto fitted = shells(ground, stock, unheard); fitted && fitted->remedy.enough) return true;
  }
  return false;
}

RC_GTEST_PROP(GrindingProperty, ASizeThatWithSomeHalvesIsEnoughIsFound, ()) {
  Block block = random_mains();
  const RemedyList list = block.remedies();
  const Setup setup = setup_of(block.work.done(), block.work.spec.fits.front());
  const bool bad = std::ranges::any_of(judged(setup), [](const FitResult& fit) { return is_bad(fit.verdict); });
  const bool found = std::ranges::any_of(list.remedies, [](const Remedy& remedy) { return remedy.enough; });
  if (bad && !found) RC_ASSERT(!some_size_is_enough(setup, block.stock));
}

TEST(Grinding, SingleJournalsAndHalvesForTheOthers) {
  // One main is too tight; the other is too loose, and has no metal to give.
  Block block(2);
  block.mains("0.0020 in", "0.0030 in");
  block.read("main_bearing", {"2.7510 in", "2.7540 in"});
  block.read("main_journal", {"2.7500 in", "2.7500 in"});
  block.grind().all_alike = false;
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.shell("thick-lower", Half::lower, "0.0975 in", 1);
  block.fitted_everywhere("std-upper", "std-lower");
  const RemedyList list = block.remedies();
  const Remedy* const both = find(list, RemedyKind::combined);
  ASSERT_NE(both, nullptr) << testing::reasons(list);
  EXPECT_TRUE(both->enough);
  EXPECT_EQ(grinding(list).cuts.size(), 1U);
  EXPECT_EQ(find(list, RemedyKind::shells)->halves,
            (std::vector{HalfStep{2, "2", Half::lower, "std-lower", "thick-lower"}}));
}

}  // namespace
}  // namespace tenth
