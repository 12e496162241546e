#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <map>
#include <set>

#include "rules/remedies/halves.hpp"
#include "tests/rules/remedies/block.hpp"

namespace tenth {
namespace {

using testing::Block;
using testing::find;
using testing::len;

/// One main of 0.0020 to 0.0030 in that reads `clearance`; standard halves of 0.0960 in are fitted.
Block one_main(const std::string& clearance) {
  Block block(1);
  block.mains("0.0020 in", "0.0030 in");
  block.work.read("main_bearing/1", len("2.7500 in") + len(clearance));
  block.read("main_journal", {"2.7500 in"});
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.fitted(1, "std-upper", "std-lower");
  return block;
}

const Remedy& shells_of(const RemedyList& list) {
  const Remedy* const remedy = find(list, RemedyKind::shells);
  if (remedy == nullptr) throw std::runtime_error("no shells: " + testing::reasons(list));
  return *remedy;
}

// engine-trade.md, mixed halves: a change of one half by w changes the clearance by w.
TEST(Shells, OneThinnerHalfOpensTheClearanceByItsDifference) {
  Block block = one_main("0.0015 in");
  block.shell("thin-lower", Half::lower, "0.0950 in", 1);
  const RemedyList list = block.remedies();
  const Remedy& remedy = shells_of(list);
  ASSERT_EQ(remedy.halves.size(), 1U);
  EXPECT_EQ(remedy.halves[0], (HalfStep{1, "1", Half::lower, "std-lower", "thin-lower"}));
  EXPECT_EQ(remedy.after[0].mean, len("0.0025 in"));
  EXPECT_TRUE(remedy.enough);
  EXPECT_EQ(remedy.undo, Undo::free);
  EXPECT_EQ(remedy.moved, 1);
  EXPECT_EQ(remedy.off_target, Length());
  EXPECT_TRUE(list.suffices);
  EXPECT_TRUE(list.none.empty()) << testing::reasons(list);
}

// engine-limits.json, X3: 0.003 in measured, a pair of 0.001 in undersize put in: 0.002 in.
TEST(Shells, AnUndersizePairClosesByItsUndersize) {
  Block block = one_main("0.0030 in");
  block.work.spec.fits.front().limits = testing::limits("0.0015 in", "0.0025 in");
  for (Shell& shell : block.stock.shells) {
    shell.wall.reset();
    shell.series = "A";
    shell.undersize = Length();
  }
  for (const Half side : {Half::upper, Half::lower}) {
    Shell& shell = block.shell(side == Half::upper ? "one-upper" : "one-lower", side, "", 1);
    shell.series = "A";
    shell.undersize = len("0.001 in");
  }
  const RemedyList list = block.remedies();
  EXPECT_EQ(shells_of(list).after[0].mean, len("0.002 in"));
  EXPECT_EQ(shells_of(list).moved, 2);
}

TEST(Shells, FewestAreMovedWhereAllElseIsEqual) {
  Block block = one_main("0.0015 in");
  block.shell("a", Half::lower, "0.0955 in", 1);
  block.shell("b", Half::upper, "0.0955 in", 1);
  block.shell("c", Half::lower, "0.0950 in", 1);
  EXPECT_EQ(shells_of(block.remedies()).halves, (std::vector{HalfStep{1, "1", Half::lower, "std-lower", "c"}}));
}

TEST(Shells, TheTargetRulesBeforeThat) {
  Block block = one_main("0.0015 in");
  block.work.spec.fits.front().target = len("0.0024 in");
  block.shell("a", Half::lower, "0.0955 in", 1);
  block.shell("b", Half::upper, "0.0956 in", 1);
  block.shell("c", Half::lower, "0.0950 in", 1);
  const Remedy remedy = shells_of(block.remedies());
  EXPECT_EQ(remedy.moved, 2);
  EXPECT_EQ(remedy.after[0].mean, len("0.0024 in"));
}

TEST(Shells, TwoSeatsCannotHaveTheSameHalf) {
  Block block(2);
  block.mains("0.0020 in", "0.0030 in");
  block.read("main_bearing", {"2.7515 in", "2.7515 in"});
  block.read("main_journal", {"2.7500 in", "2.7500 in"});
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.fitted_everywhere("std-upper", "std-lower");
  block.shell("thin", Half::lower, "0.0950 in", 1);
  const RemedyList list = block.remedies();
  EXPECT_EQ(shells_of(list).in, 1);
  EXPECT_FALSE(shells_of(list).enough);
  EXPECT_FALSE(list.suffices);
  EXPECT_NE(testing::reasons(list).find("main_clearance"), std::string::npos);
  block.stock.shells.back().count = 2;
  EXPECT_TRUE(shells_of(block.remedies()).enough);
}

/// Two mains, one loose and one tight: their fitted halves exchanged make both right.
Block to_be_exchanged() {
  Block block(2);
  block.mains("0.0020 in", "0.0030 in");
  block.read("main_bearing", {"2.7515 in", "2.7535 in"});
  block.read("main_journal", {"2.7500 in", "2.7500 in"});
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("thick-lower", Half::lower, "0.0965 in", 0);
  block.shell("thin-lower", Half::lower, "0.0955 in", 0);
  block.fitted(1, "std-upper", "thick-lower");
  block.fitted(2, "std-upper", "thin-lower");
  return block;
}

TEST(Shells, FittedHalvesMayBeExchanged) {
  Block block = to_be_exchanged();
  const Remedy remedy = shells_of(block.remedies());
  EXPECT_TRUE(remedy.enough);
  EXPECT_EQ(remedy.halves.size(), 2U);
  EXPECT_EQ(remedy.halves[0].in, "thin-lower");
  EXPECT_EQ(remedy.halves[1].in, "thick-lower");
}

TEST(Shells, UnlessTheMakerForbidsIt) {
  Block block = to_be_exchanged();
  block.work.spec.fits.front().swap = false;
  const RemedyList list = block.remedies();
  EXPECT_EQ(find(list, RemedyKind::shells), nullptr);
  EXPECT_NE(testing::reasons(list).find("0.00050 in under its lower limit 0.00200 in"), std::string::npos)
      << testing::reasons(list);
}

TEST(Shells, AFlangedHalfSitsAtItsOwnPlaceOnly) {
  Block block = one_main("0.0015 in");
  Shell& flanged = block.shell("flanged", Half::lower, "0.0950 in", 1);
  flanged.places = {"3"};
  EXPECT_EQ(find(block.remedies(), RemedyKind::shells), nullptr);
  block.stock.shells.back().places = {"1", "3"};
  EXPECT_NE(find(block.remedies(), RemedyKind::shells), nullptr);
}

TEST(Shells, AHalfForEitherSideCountsOnce) {
  Block block = one_main("0.0005 in");
  block.shell("either", Half::either, "0.0950 in", 1);
  EXPECT_FALSE(shells_of(block.remedies()).enough);
  block.stock.shells.back().count = 2;
  const Remedy remedy = shells_of(block.remedies());
  EXPECT_TRUE(remedy.enough);
  EXPECT_EQ(remedy.halves.size(), 2U);
}

TEST(Shells, WithoutAKnownWallNothingIsOffered) {
  Block block = one_main("0.0015 in");
  block.shell("thin", Half::lower, "0.0950 in", 1);
  block.fitted(1, "", "");
  const RemedyList list = block.remedies();
  EXPECT_TRUE(list.remedies.empty());
  EXPECT_EQ(testing::reasons(list), "main_clearance 1: no wall known for the halves fitted\n");
}

TEST(Shells, AMakersRangeJoinsTheUncertainty) {
  Block block = one_main("0.0015 in");
  block.shell("range", Half::lower, "0.0950 in", 1).wall = Wall{len("0.0948 in"), len("0.0952 in")};
  const Remedy remedy = shells_of(block.remedies());
  EXPECT_EQ(remedy.after[0].mean, len("0.0025 in"));
  EXPECT_EQ(remedy.after[0].uncertainty, len("0.0002 in"));
}

TEST(Shells, CoatedIsAskedOfTheHalvesPutInOnly) {
  Block block = one_main("0.0015 in");
  block.work.spec.fits.front().coated = Coated::must;
  block.shell("plain", Half::lower, "0.0950 in", 1);
  EXPECT_EQ(find(block.remedies(), RemedyKind::shells), nullptr);
  block.shell("coated", Half::lower, "0.0952 in", 1).coated = true;
  EXPECT_EQ(shells_of(block.remedies()).halves.front().in, "coated");  // beside the plain upper half that stays
}

TEST(Shells, ASeatThatIsNotMeasuredKeepsItsHalves) {
  Block block = to_be_exchanged();
  block.work.spec.find("main_bearing");
  Block half_read(2);
  half_read.mains("0.0020 in", "0.0030 in");
  half_read.read("main_bearing", {"2.7515 in"});
  half_read.read("main_journal", {"2.7500 in", "2.7500 in"});
  half_read.stock = block.stock;
  half_read.fitted(1, "std-upper", "thick-lower");
  half_read.fitted(2, "std-upper", "thin-lower");
  EXPECT_EQ(find(half_read.remedies(), RemedyKind::shells), nullptr);
}

TEST(Shells, IdsOfLikeHalvesAreUsedUpOneByOne) {
  Block block(2);
  block.mains("0.0020 in", "0.0030 in");
  block.read("main_bearing", {"2.7515 in", "2.7515 in"});
  block.read("main_journal", {"2.7500 in", "2.7500 in"});
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.fitted_everywhere("std-upper", "std-lower");
  block.shell("box-1", Half::lower, "0.0950 in", 1);
  block.shell("box-2", Half::lower, "0.0950 in", 1);
  const Remedy remedy = shells_of(block.remedies());
  ASSERT_EQ(remedy.halves.size(), 2U);
  EXPECT_EQ(remedy.halves[0].in, "box-1");
  EXPECT_EQ(remedy.halves[1].in, "box-2");
}

TEST(Shells, OneThatStaysIsNotHandedOutAsALikeOne) {
  Block block(2);
  block.mains("0.0020 in", "0.0030 in");
  block.read("main_bearing", {"2.7525 in", "2.7515 in"});
  block.read("main_journal", {"2.7500 in", "2.7500 in"});
  block.shell("std-upper", Half::upper, "0.0960 in", 0);
  block.shell("std-lower", Half::lower, "0.0960 in", 0);
  block.shell("box-1", Half::lower, "0.0950 in", 0);
  block.shell("box-2", Half::lower, "0.0950 in", 1);
  block.fitted(1, "std-upper", "box-1");
  block.fitted(2, "std-upper", "std-lower");
  EXPECT_EQ(shells_of(block.remedies()).halves, (std::vector{HalfStep{2, "2", Half::lower, "std-lower", "box-2"}}));
}

/// What a remedy, or doing nothing, comes to.
struct Outcome {
  int in = 0;
  Length off;
  int moved = 0;
  friend bool operator==(const Outcome&, const Outcome&) = default;
};
bool before(const Outcome& a, const Outcome& b) {
  return std::tuple(-a.in, a.off, a.moved) < std::tuple(-b.in, b.off, b.moved);
}

/// Random small blocks, every choice of halves tried and judged by itself.
struct Small {
  Block block{2};
  std::vector<Length> clearances;
  std::vector<std::array<std::string, 2>> fitted;
};

Small draw_small() {
  Small small;
  Fit& fit = small.block.mains("0.040", "0.060");
  fit.target = *rc::gen::element(std::optional<Length>(), std::optional(len("0.048")));
  fit.swap = *rc::gen::arbitrary<bool>();
  if (*rc::gen::arbitrary<bool>()) fit.wall_difference = len("0.010");
  fit.thicker = *rc::gen::element(std::optional<Half>(), std::optional(Half::upper));
  for (int i = 0; i < 5; ++i) {
    const Length wall = len("2.400") + len("0.001") * *rc::gen::inRange(0, 20);
    const Half half = *rc::gen::element(Half::upper, Half::lower, Half::either);
    small.block.shell("k" + std::to_string(i), half, exact_mm(wall), *rc::gen::inRange(0, 3));
  }
  for (int index = 1; index <= 2; ++index) {
    small.clearances.push_back(len("0.030") + len("0.001") * *rc::gen::inRange(0, 40));
    small.block.work.read("main_bearing/" + std::to_string(index), len("70") + small.clearances.back());
    small.block.work.read("main_journal/" + std::to_string(index), "70");
    const std::string upper = "k" + std::to_string(*rc::gen::inRange(0, 5));
    const std::string lower = "k" + std::to_string(*rc::gen::inRange(0, 5));
    small.block.fitted(index, upper, lower);
    small.fitted.push_back({upper, lower});
  }
  return small;
}

Outcome tried(const Small& small, const std::array<const Shell*, 4>& halves) {
  Outcome outcome;
  const Fit& fit = small.block.work.spec.fits.front();
  const Length target = fit.target.value_or(len("0.050"));
  for (std::size_t seat = 0; seat < 2; ++seat) {
    Length clearance = small.clearances[seat];
    for (std::size_t side = 0; side < 2; ++side) {
      const Shell& in = *halves[2 * seat + side];
      const auto out = std::ranges::find(small.block.stock.shells, small.fitted[seat][side], &Shell::id);
      clearance = clearance + out->wall->least - in.wall->least;
      outcome.moved += in.id != out->id ? 1 : 0;
    }
    outcome.in += clearance >= *fit.limits.lower && clearance <= *fit.limits.upper ? 1 : 0;
    outcome.off = outcome.off + (clearance - target).magnitude();
  }
  return outcome;
}

bool allowed(const Small& small, const std::array<const Shell*, 4>& halves) {
  const Fit& fit = small.block.work.spec.fits.front();
  std::map<std::string, int> left;
  for (const Shell& shell : small.block.stock.shells) left[shell.id] = shell.count;
  for (const auto& seat : small.fitted)
    for (const std::string& id : seat) ++left[id];
  for (std::size_t i = 0; i < 4; ++i) {
    const std::string& was = small.fitted[i / 2][i % 2];
    const bool stays = halves[i]->id == was;
    if (!stays && !may_sit(*halves[i], i % 2 == 0 ? Half::upper : Half::lower, "1")) return false;
    if (--left[halves[i]->id] < 0) return false;
  }
  if (!fit.swap) {  // only what lies free may come in
    std::map<std::string, int> wanted;
    for (std::size_t i = 0; i < 4; ++i)
      if (halves[i]->id != small.fitted[i / 2][i % 2]) ++wanted[halves[i]->id];
    for (const Shell& shell : small.block.stock.shells)
      if (wanted[shell.id] > shell.count) return false;
  }
  for (std::size_t seat = 0; seat < 2; ++seat) {
    const bool as_it_is =
        halves[2 * seat]->id == small.fitted[seat][0] && halves[2 * seat + 1]->id == small.fitted[seat][1];
    if (!as_it_is && !may_go_together(fit, halves[2 * seat], halves[2 * seat + 1])) return false;
  }
  return true;
}

RC_GTEST_PROP(ShellsProperty, EqualTryingEverything, ()) {
  Small small = draw_small();
  const auto& kinds = small.block.stock.shells;
  std::optional<Outcome> best;
  for (const Shell& a : kinds)
    for (const Shell& b : kinds)
      for (const Shell& c : kinds)
        for (const Shell& d : kinds)
          if (const std::array halves = {&a, &b, &c, &d}; allowed(small, halves))
            if (const Outcome outcome = tried(small, halves); !best || before(outcome, *best)) best = outcome;
  const RemedyList list = small.block.remedies();
  const Remedy* const remedy = find(list, RemedyKind::shells);
  const Report now = judge(small.block.work.done());
  const bool bad = std::ranges::any_of(now.fits, [](const FitResult& fit) { return fit.verdict == Verdict::out; });
  if (remedy != nullptr) {
    RC_ASSERT((Outcome{remedy->in, remedy->off_target, remedy->moved}) == *best);
  } else if (bad) {
    RC_ASSERT(best->moved == 0);  // nothing is better than what is there
  }
}

}  // namespace
}  // namespace tenth
