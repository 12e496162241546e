#include "rules/plausible.hpp"

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::limits;
using Doubts = std::vector<Doubt>;

Feature with(Kind kind, const Limits& limits) {
  Feature feature;
  feature.kind = kind;
  feature.limits = limits;
  return feature;
}

const Feature kBore = with(Kind::inside, limits("83.000", "83.035"));
const Feature kJournal = with(Kind::outside, limits("2.7490 in", "2.7500 in"));
const Feature kGap = with(Kind::gap, limits("0.25", "0.40"));

Doubts doubts(const Feature& feature, std::string_view size) {
  return doubts_of_size(feature, len(size), {});
}
Doubts doubts(const Feature& feature, std::string_view size, std::string_view counting) {
  return doubts_of_size(feature, len(size), len(counting));
}

TEST(FitsKind, EachGaugeOnlyItsOwn) {
  const std::pair<Measures, Kind> pairs[] = {{Measures::inside, Kind::inside},
                                             {Measures::outside, Kind::outside},
                                             {Measures::gap, Kind::gap},
                                             {Measures::depth, Kind::depth}};
  for (const auto& [measures, own] : pairs)
    for (const auto& [other, kind] : pairs) EXPECT_EQ(fits_kind(measures, kind), kind == own);
}

TEST(FitsKind, AnyFitsEverySizeAndNothingFitsACheck) {
  for (const Kind kind : {Kind::inside, Kind::outside, Kind::gap, Kind::depth})
    EXPECT_TRUE(fits_kind(Measures::any, kind));
  for (const Measures measures : {Measures::inside, Measures::outside, Measures::depth, Measures::gap, Measures::any})
    EXPECT_FALSE(fits_kind(measures, Kind::check));
}

TEST(Range, DefaultIsOneMillimetreBeyondTheLimitsInclusive) {
  EXPECT_EQ(doubts(kBore, "82.000"), Doubts{});
  EXPECT_EQ(doubts(kBore, "84.035"), Doubts{});
  EXPECT_EQ(doubts(kBore, "81.999999999"), Doubts{Doubt::range});
  EXPECT_EQ(doubts(kBore, "84.035000001"), Doubts{Doubt::range});
}

TEST(Range, ItsOwnWindowReplacesTheDefault) {
  Feature bore = kBore;
  bore.window = limits("82.5", "83.5");
  EXPECT_EQ(doubts(bore, "82.5"), Doubts{});
  EXPECT_EQ(doubts(bore, "82.499999999"), Doubts{Doubt::range});
  EXPECT_EQ(doubts(bore, "83.500000001"), Doubts{Doubt::range});
}

TEST(Range, AGapLiesBetweenNothingAndFiveTimesItsUpperLimit) {
  EXPECT_EQ(doubts(kGap, "0"), Doubts{});
  EXPECT_EQ(doubts(kGap, "2.0"), Doubts{});
  EXPECT_EQ(doubts(kGap, "-0.3"), Doubts{Doubt::range});
  EXPECT_EQ(doubts(kGap, "2.000000001"), (Doubts{Doubt::range, Doubt::tenfold}));
  EXPECT_EQ(doubts(kGap, "13"), Doubts{Doubt::range});
}

TEST(Range, AMissingLimitIsStoodForByTheOther) {
  EXPECT_EQ(doubts(with(Kind::inside, limits("83", "")), "84.000000001"), Doubts{Doubt::range});
  EXPECT_EQ(doubts(with(Kind::inside, limits("", "83")), "82"), Doubts{});
  EXPECT_EQ(doubts(with(Kind::gap, limits("0.2", "")), "1.0"), Doubts{});
  EXPECT_EQ(doubts(with(Kind::gap, limits("0.2", "")), "1.000000001"), (Doubts{Doubt::range, Doubt::tenfold}));
}

TEST(Range, WithoutLimitsAndWindowEverySizeIsPlausible) {
  EXPECT_EQ(doubts(with(Kind::outside, {}), "70000"), Doubts{});
}

TEST(Tenfold, ASlipOfTheDecimalPointEitherWay) {
  EXPECT_EQ(doubts(kBore, "8.3012"), (Doubts{Doubt::range, Doubt::tenfold}));
  EXPECT_EQ(doubts(kBore, "830.12"), (Doubts{Doubt::range, Doubt::tenfold}));
}

TEST(Tenfold, UndoneItLiesWithinATenthOfAMillimetreOfTheLimits) {
  EXPECT_EQ(doubts(kBore, "8.29"), (Doubts{Doubt::range, Doubt::tenfold}));
  EXPECT_EQ(doubts(kBore, "8.289999999"), Doubts{Doubt::range});
  EXPECT_EQ(doubts(kBore, "831.35"), (Doubts{Doubt::range, Doubt::tenfold}));
  EXPECT_EQ(doubts(kBore, "831.350000001"), Doubts{Doubt::range});
}

TEST(Tenfold, IsSaidOnlyBesideRange) {
  Feature gap = kGap;
  gap.window = limits("0", "5");
  EXPECT_EQ(doubts(gap, "3.3"), Doubts{});
}

TEST(InchAndMillimetre, MixedUpEitherWay) {
  EXPECT_EQ(doubts(kBore, "3.2682"), (Doubts{Doubt::range, Doubt::inch_mm}));   // inches taken for millimetres
  EXPECT_EQ(doubts(kBore, "2108.66"), (Doubts{Doubt::range, Doubt::inch_mm}));  // 83.018 taken for inches
}

TEST(InchAndMillimetre, UndoneItLiesWithinATenthOfAMillimetreOfTheLimits) {
  EXPECT_EQ(doubts(kBore, "2111.629"), (Doubts{Doubt::range, Doubt::inch_mm}));  // 83.135 x 25.4
  EXPECT_EQ(doubts(kBore, "2111.629000001"), Doubts{Doubt::range});
}

TEST(Turn, OfAnInchMicrometer) {
  EXPECT_EQ(doubts(kJournal, "2.7745 in"), Doubts{Doubt::turn});  // 2.7495 and one turn of 0.025 in
  EXPECT_EQ(doubts(kJournal, "2.7245 in"), Doubts{Doubt::turn});
  EXPECT_EQ(doubts(kJournal, "2.7995 in"), (Doubts{Doubt::range, Doubt::turn}));  // two turns
}

TEST(Turn, OfAMetricMicrometer) {
  const Feature pin = with(Kind::outside, limits("51.980", "52.000"));
  EXPECT_EQ(doubts(pin, "52.49"), Doubts{Doubt::turn});
  EXPECT_EQ(doubts(pin, "52.54"), Doubts{Doubt::turn});
  EXPECT_EQ(doubts(pin, "52.540000001"), Doubts{});
  EXPECT_EQ(doubts(pin, "51.44"), Doubts{Doubt::turn});
  EXPECT_EQ(doubts(pin, "51.439999999"), Doubts{});
}

TEST(Turn, IsCountedFromAMiddleBetweenTwoPicometres) {
  const Feature pin = with(Kind::outside, limits("52.000", "52.000000001"));
  EXPECT_EQ(doubts(pin, "52.55"), Doubts{Doubt::turn});
  EXPECT_EQ(doubts(pin, "52.550000001"), Doubts{});  // the middle is 52.0000000005
}

TEST(Turn, AWornJournalIsNotATurnOff) {
  EXPECT_EQ(doubts(kJournal, "2.7480 in"), Doubts{});
  EXPECT_EQ(doubts(kJournal, "2.7495 in"), Doubts{});
}

TEST(Turn, NeverWithinTheLimitsHoweverWideTheyAre) {
  EXPECT_EQ(doubts(with(Kind::outside, limits("40", "41.2")), "41.1"), Doubts{});
}

TEST(Turn, OnlyOutsideMicrometersHaveAThimble) {
  EXPECT_EQ(doubts(kBore, "83.5175"), Doubts{});
}

TEST(Repeat, DefaultIsHalfAThousandthOfAnInch) {
  EXPECT_EQ(doubts(kBore, "83.0227", "83.0100"), Doubts{});
  EXPECT_EQ(doubts(kBore, "82.9973", "83.0100"), Doubts{});
  EXPECT_EQ(doubts(kBore, "83.022700001", "83.0100"), Doubts{Doubt::repeat});
  EXPECT_EQ(doubts(kBore, "82.997299999", "83.0100"), Doubts{Doubt::repeat});
}

TEST(Repeat, ItsOwnReplacesTheDefault) {
  Feature bore = kBore;
  bore.repeat = len("0.010");
  EXPECT_EQ(doubts(bore, "83.020", "83.010"), Doubts{});
  EXPECT_EQ(doubts(bore, "83.021", "83.010"), Doubts{Doubt::repeat});
}

TEST(Repeat, AGapMayBeFiledWiderButNeverCloses) {
  EXPECT_EQ(doubts(kGap, "0.38", "0.30"), Doubts{});
  EXPECT_EQ(doubts(kGap, "0.28", "0.30"), Doubts{Doubt::repeat});
}

TEST(Doubts, AreToldInOneOrder) {
  EXPECT_EQ(doubts(kJournal, "2.7995 in", "2.7495 in"), (Doubts{Doubt::range, Doubt::turn, Doubt::repeat}));
}

}  // namespace
}  // namespace tenth
