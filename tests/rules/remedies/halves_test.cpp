#include "rules/remedies/halves.hpp"

#include <gtest/gtest.h>

#include <array>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;

Shell half(const std::string& id, std::string_view least, std::string_view most = "") {
  Shell shell;
  shell.id = id;
  if (!least.empty()) shell.wall = Wall{len(least), len(most.empty() ? least : most)};
  return shell;
}

Shell of_series(const std::string& id, const std::string& series, std::string_view undersize) {
  Shell shell;
  shell.id = id;
  shell.series = series;
  shell.undersize = len(undersize);
  return shell;
}

TEST(Halves, WallsThatAreKnownTellExactly) {
  const auto difference = thicker_by(half("a", "2.4380"), half("b", "2.4333"));
  ASSERT_TRUE(difference);
  EXPECT_EQ(difference->by, len("0.0047"));
  EXPECT_EQ(difference->unsure, Length());
}

// engine-trade.md, mixed halves: shells named by undersize u have a wall thicker by u/2.
TEST(Halves, WithinASeriesByHalfTheUndersizes) {
  const auto difference = thicker_by(of_series("a", "A", "0.010 in"), of_series("b", "A", "0.001 in"));
  ASSERT_TRUE(difference);
  EXPECT_EQ(difference->by, len("0.0045 in"));
}

TEST(Halves, AcrossSeriesNothingIsKnown) {
  EXPECT_FALSE(thicker_by(of_series("a", "A", "0.010 in"), of_series("b", "B", "0")));
  EXPECT_FALSE(thicker_by(of_series("a", "", "0.010 in"), of_series("b", "", "0")));
  EXPECT_FALSE(thicker_by(half("a", "2.4"), half("b", "")));
}

TEST(Halves, AKindDoesNotDifferFromItself) {
  const auto difference = thicker_by(half("a", ""), half("a", ""));
  ASSERT_TRUE(difference);
  EXPECT_EQ(difference->by, Length());
}

TEST(Halves, ARangeCountsAsItsMiddleAndHalfItsWidthIsUnsure) {
  const auto difference = thicker_by(half("a", "2.430", "2.436"), half("b", "2.420"));
  ASSERT_TRUE(difference);
  EXPECT_EQ(difference->by, len("0.013"));
  EXPECT_EQ(difference->unsure, len("0.003"));
  const auto both = thicker_by(half("a", "2.430", "2.436"), half("b", "2.420", "2.428"));
  EXPECT_EQ(both->unsure, len("0.005"));  // 3 and 4 µm
}

TEST(Halves, WithinASeriesARangeCountsAsUnknown) {
  Shell a = of_series("a", "A", "0.010 in"), b = of_series("b", "A", "0");
  a.wall = Wall{len("2.56"), len("2.58")};
  b.wall = Wall{len("2.43"), len("2.43")};
  EXPECT_EQ(thicker_by(a, b)->by, len("0.005 in"));
  EXPECT_EQ(thicker_by(a, b)->unsure, Length());
}

/// A step of a ladder of shells: undersize and the least new wall.
struct Step {
  const char *undersize, *wall;
};

// Two published ladders of rod shells, as printed in army manuals (read; in the project's notes L6 and L8).
constexpr std::array<Step, 5> kFirst = {{{"0 in", "0.1247 in"},
                                         {"0.002 in", "0.1257 in"},
                                         {"0.010 in", "0.1297 in"},
                                         {"0.020 in", "0.1347 in"},
                                         {"0.030 in", "0.1397 in"}}};
constexpr std::array<Step, 5> kSecond = {{{"0 in", "0.1245 in"},
                                          {"0.002 in", "0.1255 in"},
                                          {"0.010 in", "0.1295 in"},
                                          {"0.020 in", "0.1345 in"},
                                          {"0.030 in", "0.1395 in"}}};

TEST(Halves, ThePublishedLaddersAgreeWithTheRuleOfSeries) {
  for (const auto& ladder : {kFirst, kSecond})
    for (const Step& step : ladder) {
      Shell standard = of_series("standard", "A", ladder[0].undersize), here = of_series("here", "A", step.undersize);
      const auto by_series = thicker_by(here, standard);
      standard.wall = Wall{len(ladder[0].wall), len(ladder[0].wall)};
      here.wall = Wall{len(step.wall), len(step.wall)};
      EXPECT_EQ(by_series->by, thicker_by(here, standard)->by) << step.undersize;
    }
}

TEST(Halves, SitWhereTheyMay) {
  Shell shell = half("flanged", "2.4");
  shell.half = Half::lower;
  shell.places = {"3"};
  EXPECT_TRUE(may_sit(shell, Half::lower, "3"));
  EXPECT_FALSE(may_sit(shell, Half::upper, "3"));
  EXPECT_FALSE(may_sit(shell, Half::lower, "2"));
  shell.half = Half::either;
  EXPECT_TRUE(may_sit(shell, Half::upper, "3"));
}

TEST(Halves, CoatedAsTheFitAsks) {
  Shell coated = half("c", "2.4"), plain = half("p", "2.4");
  coated.coated = true;
  Fit fit;
  EXPECT_TRUE(may_be_put_in(fit, coated) && may_be_put_in(fit, plain));
  fit.coated = Coated::must;
  EXPECT_TRUE(may_be_put_in(fit, coated) && !may_be_put_in(fit, plain));
  fit.coated = Coated::never;
  EXPECT_TRUE(!may_be_put_in(fit, coated) && may_be_put_in(fit, plain));
}

TEST(Halves, UnmixedOnesAreOfOneSeriesAndUndersize) {
  Fit fit;
  const Shell a = of_series("a", "A", "0"), same = of_series("s", "A", "0"), other = of_series("o", "A", "0.010 in"),
              b = of_series("b", "B", "0");
  EXPECT_TRUE(may_go_together(fit, &a, &b));
  fit.mix_halves = false;
  EXPECT_TRUE(may_go_together(fit, &a, &same));
  EXPECT_FALSE(may_go_together(fit, &a, &other));
  EXPECT_FALSE(may_go_together(fit, &a, &b));
  EXPECT_FALSE(may_go_together(fit, &a, nullptr));
}

TEST(Halves, WallsDifferNoMoreThanAllowed) {
  Fit fit;
  fit.wall_difference = len("0.0005 in");
  const Shell a = half("a", "0.0960 in"), near = half("n", "0.0955 in"), far = half("f", "0.0954 in");
  EXPECT_TRUE(may_go_together(fit, &a, &near));
  EXPECT_FALSE(may_go_together(fit, &a, &far));
  EXPECT_FALSE(may_go_together(fit, &far, &a));
  const Shell unknown = half("u", "");
  EXPECT_FALSE(may_go_together(fit, &a, &unknown));
}

TEST(Halves, TheThickerOneIsWhereTheFitSays) {
  Fit fit;
  fit.thicker = Half::upper;
  const Shell thick = half("k", "2.45"), thin = half("n", "2.44");
  EXPECT_TRUE(may_go_together(fit, &thick, &thin));
  EXPECT_FALSE(may_go_together(fit, &thin, &thick));
  EXPECT_TRUE(may_go_together(fit, &thin, &thin));
  fit.thicker = Half::lower;
  EXPECT_TRUE(may_go_together(fit, &thin, &thick));
}

}  // namespace
}  // namespace tenth
