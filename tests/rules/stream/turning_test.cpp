#include "rules/stream/turning.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "tests/rules/printing.hpp"
#include "tests/rules/stream/rocked.hpp"

namespace tenth::stream {
namespace {

using testing::Hand;
using testing::stream_of;

constexpr Length kStep = Length::from_pm(100'000);
constexpr std::int64_t ms = 1'000'000;

/// "83.0104", or the name of the reason.
std::string told(const std::vector<Sample>& samples) {
  const auto turning = turning_point(samples, kStep);
  return turning ? exact_mm(turning->value) : std::string(name(turning.error()));
}

std::vector<Sample> and_then(std::vector<Sample> samples, const std::vector<Sample>& more, Length raised = Length()) {
  const std::int64_t later = samples.back().at_ns + 50 * ms - more.front().at_ns;
  for (const Sample& sample : more) samples.push_back({sample.at_ns + later, sample.value + raised});
  return samples;
}

/// A gauge that shows one value for `count` samples, 20 a second.
std::vector<Sample> still(Length value, int count) {
  std::vector<Sample> samples;
  for (int i = 0; i < count; ++i) samples.push_back({i * 50 * ms, value});
  return samples;
}

std::vector<Sample> cut(const std::vector<Sample>& samples, std::size_t from, std::size_t count) {
  return {samples.begin() + static_cast<std::ptrdiff_t>(from),
          samples.begin() + static_cast<std::ptrdiff_t>(from + count)};
}

/// From the height at one side down to `part` of the way to the turn.
std::vector<Sample> half_a_pass(double part, double hz) {
  const auto pass = stream_of({.pass = 3, .passes = 1, .hz = hz});
  return cut(pass, 0, static_cast<std::size_t>(part * hz * 1.5));
}

void expect_near(const std::vector<Sample>& samples, double size_mm, double within_um) {
  const auto turning = turning_point(samples, kStep);
  ASSERT_TRUE(turning) << name(turning.error());
  EXPECT_NEAR(static_cast<double>(turning->value.pm()) * 1e-6, size_mm * 1000, within_um);
}

TEST(Turning, TellsValueSpreadAndPasses) {
  const auto turning = turning_point(stream_of({.passes = 6, .noise = 0, .resolution = 0.00001, .late = 0}), kStep);
  ASSERT_TRUE(turning);
  EXPECT_EQ(turning->value, Length::from_pm(83'010'400'000));
  EXPECT_EQ(turning->spread, Length());
  EXPECT_EQ(turning->passes, 6);
}

TEST(Turning, SpreadIsLargestLessSmallestPass) {
  auto samples = stream_of({.noise = 0, .resolution = 0.00001, .late = 0});
  const auto higher = stream_of({.noise = 0, .resolution = 0.00001, .late = 0});
  const auto turning = turning_point(and_then(samples, higher, Length::from_um(6)), kStep);
  ASSERT_TRUE(turning);
  EXPECT_EQ(turning->spread, Length::from_um(6));
  EXPECT_EQ(turning->value, Length::from_pm(83'013'400'000));  // between the five lower and the five higher passes
  EXPECT_EQ(turning->passes, 10);
}

TEST(Turning, RoundsToTheStepOnBothSidesOfZero) {
  const auto at_zero = stream_of({.noise = 0, .resolution = 0.00001, .late = 0});
  for (const auto& [um, rounded_um] : {std::pair{390, 0}, {410, 800}, {-390, 0}, {-410, -800}, {-1210, -1600}}) {
    auto samples = at_zero;
    for (Sample& sample : samples) sample.value = sample.value - Length::from_pm(83'010'400'000) + Length::from_um(um);
    const auto turning = turning_point(samples, Length::from_um(800));
    ASSERT_TRUE(turning);
    EXPECT_EQ(turning->value, Length::from_um(rounded_um)) << um;
  }
}

TEST(Turning, NeedsThreePasses) {
  EXPECT_EQ(told({}), "too_few");
  EXPECT_EQ(told({{0, Length::from_mm(83)}}), "too_few");
  EXPECT_EQ(told(still(Length::from_mm(83), 200)), "too_few");
  for (const int passes : {1, 2}) EXPECT_EQ(told(stream_of({.passes = passes})), "too_few") << passes;
  expect_near(stream_of({.passes = 3}), 83.0104, 2);
}

TEST(Turning, NeedsSamplesInEveryPass) {
  for (const double pass : {0.2, 0.25, 0.3, 0.35})
    EXPECT_EQ(told(stream_of({.pass = pass, .passes = 12, .hz = 10})), "too_fast") << pass;
  EXPECT_EQ(told(stream_of({.pass = 0.7, .passes = 8, .hz = 5})), "too_fast");
  expect_near(stream_of({.pass = 0.6, .passes = 8, .hz = 10}), 83.0104, 2);
}

TEST(Turning, LeavesOutAFewPassesThatAreTooFast) {
  const auto slow = stream_of({.pass = 1, .passes = 4, .hz = 10}),
             fast = stream_of({.pass = 0.3, .passes = 2, .hz = 10});
  for (const auto& samples : {and_then(slow, fast), and_then(fast, slow)}) {
    const auto turning = turning_point(samples, kStep);
    ASSERT_TRUE(turning) << name(turning.error());
    EXPECT_EQ(turning->passes, 4);
  }
}

TEST(Turning, TellsTheReasonOfMostPasses) {
  const auto fast = stream_of({.pass = 0.3, .passes = 6, .hz = 10}), lifted = half_a_pass(0.8, 20);
  EXPECT_EQ(told(and_then(and_then(lifted, lifted), fast)), "too_fast");
}

TEST(Turning, OneWayIsOneSided) {
  const auto pass = stream_of({.pass = 4, .passes = 1, .noise = 0});
  EXPECT_EQ(told(cut(pass, 0, pass.size() / 2 - 4)), "one_sided");
  EXPECT_EQ(told(cut(pass, pass.size() / 2 + 4, pass.size() / 2 - 8)), "one_sided");
}

TEST(Turning, ComingBackBeforeTheTurnIsOneSided) {
  for (const double askew : {1.0, 1.2, 1.5})
    for (const double hz : {10.0, 20.0, 50.0})
      EXPECT_EQ(told(stream_of({.height = 0.3, .passes = 12, .askew = askew, .hz = hz})), "one_sided")
          << askew << " " << hz;
  for (const double askew : {1.6, 2.0})
    for (const double hz : {20.0, 50.0})
      EXPECT_EQ(told(stream_of({.height = 0.3, .passes = 12, .askew = askew, .hand = Hand::even, .hz = hz})),
                "one_sided")
          << askew << " " << hz;
}

TEST(Turning, OffTheMiddleIsStillATurn) {
  for (const double askew : {0.2, 0.5}) expect_near(stream_of({.height = 2, .passes = 8, .askew = askew}), 83.0104, 2);
  for (std::uint64_t seed = 0; seed < 50; ++seed)  // rises 0.05 mm on its lower side, of which noise blurs the shape
    expect_near(stream_of({.height = 0.6, .passes = 8, .askew = 0.7, .noise = 0.002}, seed), 83.0104, 3);
}

TEST(Turning, LiftingOffAtTheTurnIsOneSided) {
  for (const double part : {0.8, 1.0})
    for (const double hz : {20.0, 50.0}) {
      const auto fall = half_a_pass(part, hz);
      std::vector<Sample> samples = fall;
      for (int i = 0; i < 5; ++i) samples = and_then(samples, fall);
      EXPECT_EQ(told(samples), "one_sided") << part << " " << hz;
    }
}

TEST(Turning, NoiseBeforeLiftingOffMakesNoTurn) {
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    std::mt19937_64 chance(seed);
    std::vector<Sample> samples;
    for (int i = 0; i < 6; ++i) {
      const auto pass = stream_of({.height = 0.3, .pass = 2, .passes = 1}, chance);
      const auto fall = cut(pass, 0, pass.size() / 2);
      samples = i == 0 ? fall : and_then(samples, fall);
    }
    EXPECT_EQ(told(samples), "one_sided") << seed;
  }
}

TEST(Turning, FallingBelowThePassesAtTheEndIsOneSided) {
  const auto samples = stream_of({.noise = 0});
  EXPECT_EQ(told(and_then(samples, still(Length::from_um(82'980), 3))), "one_sided");
}

TEST(Turning, AnotherSizeHalfWayDisagrees) {
  const auto samples = stream_of({.passes = 4});
  for (const int um : {20, 30, 100, 500, 1000, 3000})
    EXPECT_EQ(told(and_then(samples, samples, Length::from_um(um))), "disagree") << um;
  EXPECT_NE(told(and_then(samples, samples, Length::from_um(5))), "disagree");
}

TEST(Turning, PassesDifferMoreWhereTheValueRuns) {
  int answered = 0;
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    const auto samples = stream_of({.height = 3, .pass = 0.6, .hz = 10, .late = 0.001}, seed);
    answered += turning_point(samples, kStep) ? 1 : 0;
    EXPECT_EQ(told(and_then(samples, samples, Length::from_um(60))), "disagree") << seed;
  }
  EXPECT_GE(answered, 48);
}

TEST(Turning, TheWayInAndOutIsNoPass) {
  const auto free = still(Length::from_mm(86), 60), nod = stream_of({.size = 85, .passes = 1});
  const auto way = and_then(free, nod), rocked = stream_of({.passes = 4});
  const auto turning = turning_point(and_then(and_then(way, rocked), way), kStep);
  ASSERT_TRUE(turning) << name(turning.error());
  EXPECT_EQ(turning->passes, 4);
}

TEST(Turning, BeginsAndEndsAnywhere) {
  const auto samples = stream_of({.passes = 6});
  for (std::size_t off = 0; off < 30; ++off) expect_near(cut(samples, off, samples.size() - off - 7), 83.0104, 2.5);
}

TEST(Turning, HoldsFlatBottomsAndRepeatedValues) {
  expect_near(stream_of({.passes = 8, .hz = 50, .noise = 0, .resolution = 0.005}), 83.0104, 2.5);
  std::vector<Sample> twice;
  for (const Sample& sample : stream_of({.passes = 8})) twice.insert(twice.end(), {sample, sample});
  expect_near(twice, 83.0104, 2);
  std::vector<Sample> held;  // every value is sent again before the gauge measures anew
  for (const Sample& sample : stream_of({.passes = 8, .hz = 25}))
    held.insert(held.end(), {sample, {sample.at_ns + 1 * ms, sample.value}});
  expect_near(held, 83.0104, 2);
}

TEST(Turning, BearsLateArrivals) {
  expect_near(stream_of({.passes = 8, .late = 0.003}), 83.0104, 2.5);
  auto samples = stream_of({.passes = 8, .hz = 50});
  for (std::size_t i = 0; i + 1 < samples.size(); i += 2) samples[i].at_ns = samples[i + 1].at_ns;  // two in a chunk
  expect_near(samples, 83.0104, 4);
}

TEST(Turning, TimesThatGoBackGiveAnAnswerToo) {
  auto samples = stream_of({});
  for (Sample& sample : samples) sample.at_ns = -sample.at_ns;
  expect_near(samples, 83.0104, 2);
  std::ranges::rotate(samples, samples.begin() + 30);
  EXPECT_NE(told(samples), "");
  for (Sample& sample : samples) sample.at_ns = 0;
  EXPECT_EQ(told(samples), "too_fast");
}

TEST(Turning, BearsAnyLengthAndTime) {
  constexpr auto least = std::numeric_limits<std::int64_t>::min(), most = std::numeric_limits<std::int64_t>::max();
  std::vector<Sample> samples;
  for (int i = 0; i < 60; ++i)
    samples.push_back({i % 7 == 0 ? least : most, Length::from_pm(i % 3 == 0 ? least : most)});
  EXPECT_NE(told(samples), "");
  samples = stream_of({});
  for (Sample& sample : samples)
    sample.value = (sample.value - Length::from_mm(83)) * 9'000'000 + Length::from_pm(least);
  EXPECT_NE(told(samples), "");
}

TEST(Turning, ReasonsHaveNamesAndAdvice) {
  for (const NoTurning why : {NoTurning::too_few, NoTurning::too_fast, NoTurning::one_sided, NoTurning::disagree}) {
    EXPECT_FALSE(explain(why).what.empty()) << name(why);
    EXPECT_FALSE(explain(why).remedy.empty()) << name(why);
  }
  EXPECT_EQ(name(NoTurning::disagree), "disagree");
}

}  // namespace
}  // namespace tenth::stream
