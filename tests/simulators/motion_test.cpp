#include "simulators/motion.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;

Amount at(const Motion& motion, std::chrono::nanoseconds time) {
  Random random(1);
  return motion.at(time, random);
}

Rock rock(int passes, std::chrono::milliseconds period, Amount noise = {}) {
  return {.gauge = "bore", .value = {83'000'000}, .passes = passes, .period = period, .noise = noise};
}

TEST(Rocking, TurnsAtTheDiameterOnceAPass) {
  const auto motion = Motion::rocking(rock(3, 1000ms), {500'000}, {90'000'000});
  EXPECT_EQ(motion.lasts(), 3s);
  for (const auto turn : {500ms, 1500ms, 2500ms}) EXPECT_EQ(at(motion, turn), Amount{83'000'000});
  for (const auto end : {0ms, 1000ms, 2000ms, 3000ms}) EXPECT_EQ(at(motion, end), Amount{83'500'000});
  EXPECT_EQ(motion.after(), Amount{90'000'000});
}

// By hand: cos a0 = 83 / 83.5, a0 = 0.109490; a quarter of a pass is a0 * cos(pi/4) = 0.0774210 (t = P/4), and
// 83 / cos 0.0774210 = 83.2494.
TEST(Rocking, SpansTheDiameterOverTheCosineOfItsAngle) {
  const auto motion = Motion::rocking(rock(1, 1000ms), {500'000}, {});
  EXPECT_NEAR(static_cast<double>(at(motion, 250ms).millionths), 83'249'400, 300);
  EXPECT_EQ(at(motion, 250ms), at(motion, 750ms)) << "the way out is the way in";
}

RC_GTEST_PROP(Rocking, NeverSpansLessThanTheDiameter, ()) {
  const auto time = std::chrono::milliseconds(*rc::gen::inRange(0, 4000));
  const auto amplitude = Amount{*rc::gen::inRange<std::int64_t>(1, 3'000'000)};
  const auto span = at(Motion::rocking(rock(4, 1000ms), amplitude, {}), time);
  RC_ASSERT(span.millionths >= 83'000'000 && span.millionths <= 83'000'000 + amplitude.millionths);
}

TEST(Rocking, NoiseHasItsDeviationAndIsTheSameForTheSameSeed) {
  const auto motion = Motion::rocking(rock(1, 1000ms, {2000}), {500'000}, {});
  Random one(7), same(7), other(8);
  double sum = 0, squares = 0;
  bool differs = false;
  constexpr int kMany = 10'000;
  for (int i = 0; i < kMany; ++i) {
    const auto span = motion.at(500ms, one);
    EXPECT_EQ(motion.at(500ms, same), span);
    differs = differs || !(motion.at(500ms, other) == span);
    const auto error = static_cast<double>(span.millionths - 83'000'000);
    sum += error;
    squares += error * error;
  }
  EXPECT_TRUE(differs);
  EXPECT_NEAR(sum / kMany, 0, 100) << "five standard errors";
  EXPECT_NEAR(std::sqrt(squares / kMany), 2000, 75);
}

TEST(Approaching, BeginsWhereItStoodAndEndsAtItsValue) {
  const auto motion = Motion::approaching({.gauge = "g", .value = {83'000'000}, .over = 400ms}, {85'000'000});
  EXPECT_EQ(motion.lasts(), 400ms);
  EXPECT_EQ(at(motion, 0ms), Amount{85'000'000});
  EXPECT_EQ(at(motion, 200ms), Amount{84'000'000});
  EXPECT_EQ(at(motion, 400ms), Amount{83'000'000});
  EXPECT_EQ(motion.after(), Amount{83'000'000});
}

}  // namespace
}  // namespace tenth::simulators
