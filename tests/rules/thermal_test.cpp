#include "rules/thermal.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "rules/alerts.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::len;
using testing::Workpiece;

constexpr Expansion kGreyIron{11'400'000}, kSteel{11'300'000};

Warmth warm(std::string_view text) {
  const auto warmth = parse_temperature(text);
  if (!warmth) throw std::invalid_argument(warmth.error().message);
  return *warmth;
}

TEST(Temperature, BothScalesAreExact) {
  EXPECT_EQ(warm("20"), Warmth{});
  EXPECT_EQ(warm("68F"), Warmth{});
  EXPECT_EQ(warm("21.5 C").ninths_uk, 13'500'000);
  EXPECT_EQ(warm("21,5"), warm("21.5C"));
  EXPECT_EQ(warm("69F").ninths_uk, 5'000'000);  // five ninths of a kelvin
  EXPECT_EQ(warm("5").ninths_uk, -135'000'000);
}

TEST(Temperature, WhatIsNoneIsRefused) {
  for (const char* text : {"", "warm", "20 K", "1e9", "-51", "151", "303F", "20.0000001", "20CF", "nan"}) {
    const auto refused = parse_temperature(text);
    ASSERT_FALSE(refused) << text;
    EXPECT_EQ(refused.error().exit, Exit::words) << text;
  }
}

TEST(Within, IsADifferenceInKelvins) {
  EXPECT_EQ(parse_within("0.5")->ninths_uk, 4'500'000);
  EXPECT_EQ(parse_within("2 K")->ninths_uk, 18'000'000);
  for (const char* text : {"-0.1", "51", "half", ""}) EXPECT_FALSE(parse_within(text)) << text;
}

TEST(Expansions, AreInMillionthsPerKelvin) {
  EXPECT_EQ(parse_expansion("11.4"), kGreyIron);
  EXPECT_EQ(parse_expansion("0"), Expansion{});
  for (const char* text : {"-1", "1000.1", "11.40000001", "steel"}) EXPECT_FALSE(parse_expansion(text)) << text;
  EXPECT_EQ(in_millionths(Expansion{11'450'000}), "11.45");
}

// Worked cases of temperature error, computed from L × a × (t - 20) with handbook values; micrometres as rounded there.
struct Case {
  const char *size, *part_at, *gauge_at, *expansion, *um;
};
void PrintTo(const Case& each, std::ostream* out) {
  *out << each.size << " at " << each.part_at;
}
class WorkedCase : public ::testing::TestWithParam<Case> {};
TEST_P(WorkedCase, IsWhatTheHandbookValuesGive) {
  const auto& [size, part_at, gauge_at, expansion, um] = GetParam();
  const Length read = len(size);
  const Length at_20 = at_20c(read, *parse_expansion(expansion), warm(part_at), kGaugeExpansion, warm(gauge_at));
  EXPECT_EQ(fixed((at_20 - read) * 1000, Unit::mm, 0), um);
}
INSTANTIATE_TEST_SUITE_P(Handbook, WorkedCase,
                         ::testing::Values(Case{"100", "30", "20", "11.4",
                                                "-11"},  // iron bore, gauge set on a 20 °C master
                                           Case{"100", "30", "30", "11.4", "0"},         // both soaked: nearly nothing
                                           Case{"92", "35", "35", "21.5", "-14"},        // aluminium bore, steel master
                                           Case{"101.6", "30", "20", "20", "-20"},       // a piston warmed by the hand
                                           Case{"63.5", "30", "20", "12.3", "-8"},       // a steel journal
                                           Case{"5.5 in", "70F", "20", "19.5", "-3"}));  // 70 °F is 1.1 K too warm

TEST(At20C, IsExactAndRoundedHalfAwayFromZero) {
  // 100 mm × (1 - 11.4e-6 × 10 + 11.5e-6 × 2.5) = 99.991475 mm.
  EXPECT_EQ(at_20c(len("100"), kGreyIron, warm("30"), kGaugeExpansion, warm("22.5")), len("99.991475"));
  // 1 pm × (1 - 0.5): half a picometre, away from zero.
  const Expansion half{50'000'000'000};  // far beyond any metal: shows the rounding alone
  EXPECT_EQ(at_20c(Length::from_pm(1), half, warm("30"), {}, {}), Length::from_pm(1));
  EXPECT_EQ(at_20c(Length::from_pm(-1), half, warm("30"), {}, {}), Length::from_pm(-1));
}

RC_GTEST_PROP(At20C, AtTwentyNothingChanges, ()) {
  const auto pm = *rc::gen::inRange<std::int64_t>(-kLongest.pm(), kLongest.pm());
  const Expansion part{*rc::gen::inRange<std::int64_t>(0, 1'000'000'000)};
  RC_ASSERT(at_20c(Length::from_pm(pm), part, {}, kGaugeExpansion, {}) == Length::from_pm(pm));
}

RC_GTEST_PROP(At20C, PartAndGaugeOfOneMaterialAndTemperatureCancel, ()) {
  const auto pm = *rc::gen::inRange<std::int64_t>(0, kLongest.pm());
  const Expansion both{*rc::gen::inRange<std::int64_t>(0, 1'000'000'000)};
  const Warmth warmth{*rc::gen::inRange<std::int64_t>(-630'000'000, 1'170'000'000)};
  RC_ASSERT(at_20c(Length::from_pm(pm), both, warmth, both, warmth) == Length::from_pm(pm));
}

/// A bore and a piston, both read once.
class Warm : public ::testing::Test {
 protected:
  Warm() {
    work.feature("bore", Kind::inside, testing::limits("101.60", "101.62"));
    work.feature("piston", Kind::outside, testing::limits("101.53", "101.55"));
    work.spec.features[0].material = "grey iron";
    work.spec.features[1].material = "piston alloy";
    work.fit("clearance", "bore", "piston", testing::limits("0.04", "0.07"));
  }
  Reading& read(const char* place, const char* size, const char* part, const char* gauge) {
    Reading& reading = work.read(place, size);
    reading.temperatures = Temperatures{1, warm(part), {}, {}};
    if (gauge != nullptr) reading.temperatures->gauge = warm(gauge);
    reading.size_20c = size_20c_of(reading, work.spec);
    return reading;
  }
  Workpiece work;
};

TEST_F(Warm, AClearanceMeasuredInTheColdIsSmallerAtTwenty) {
  read("bore/1", "101.600", "5", "5");
  read("piston/1", "101.540", "5", "5");
  const FitResult fit = work.fitted();
  EXPECT_EQ(fit.corrected, Corrected::both);
  // 0.060 + 101.6 × 15 × (11.4e-6 - 11.5e-6) - 101.54 × 15 × (19.5e-6 - 11.5e-6) = 0.0476628 mm.
  EXPECT_EQ(fit.mean, len("0.0476628"));
}

TEST_F(Warm, WithoutTheGaugesTemperatureTheSizeAsReadIsJudged) {
  EXPECT_FALSE(read("bore/1", "101.600", "5", nullptr).size_20c);
  EXPECT_EQ(work.judged("bore").mean, len("101.600"));
  EXPECT_FALSE(work.judged("bore").corrected);
}

TEST_F(Warm, WithoutAMaterialTheSizeAsReadIsJudged) {
  work.spec.features[0].material = "moon dust";
  EXPECT_FALSE(read("bore/1", "101.600", "5", "5").size_20c);
  work.spec.materials["moon dust"] = kSteel;
  EXPECT_TRUE(read("bore/1", "101.600", "5", "5").size_20c);
}

TEST_F(Warm, AGapIsNeverCorrected) {
  work.feature("gap", Kind::gap, testing::limits("0.3", "0.4")).material = "steel";
  EXPECT_FALSE(read("gap/1", "0.35", "5", "5").size_20c);
}

TEST_F(Warm, OneSideAloneIsTold) {
  read("bore/1", "101.600", "5", "5");
  work.read("piston/1", "101.540");
  EXPECT_EQ(work.fitted().corrected, Corrected::inside);
  const auto found = causes(work.done(), judge(work.done()));
  const auto one_sided = std::ranges::find(found, AlertWhat::temperature, &Cause::what);
  ASSERT_NE(one_sided, found.end());
  EXPECT_EQ(one_sided->subject, "clearance");
  EXPECT_EQ(one_sided->severity, Severity::look);
}

TEST_F(Warm, AnIndexIsAllAtTwentyOrAllAsRead) {
  work.spec.features[0].axes = {"thrust", "pin"};
  read("bore/1//thrust", "101.600", "5", "5");
  work.read("bore/1//pin", "101.602");
  const FeatureResult bore = work.judged("bore");
  EXPECT_FALSE(bore.corrected);
  EXPECT_EQ(bore.out_of_round, len("0.002"));
}

}  // namespace
}  // namespace tenth
