#include "rules/stream/shown.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace tenth::stream {
namespace {

constexpr double kSecond = 1e9;

/// Heights above 83 mm in micrometres, 20 ms apart.
std::vector<Sample> samples_of(const std::vector<int>& heights_um) {
  std::vector<Sample> samples;
  for (const int um : heights_um)
    samples.push_back({static_cast<std::int64_t>(samples.size()) * 20'000'000, Length::from_um(83'000 + um)});
  return samples;
}

/// The samples as one pass from the first to the last.
tl::expected<Shown, NoTurning> shown(const std::vector<int>& heights_um) {
  const auto samples = samples_of(heights_um);
  const auto lowest = std::ranges::min_element(samples, {}, &Sample::value) - samples.begin();
  return shown_by({0, static_cast<std::size_t>(lowest), samples.size() - 1}, samples, kSecond);
}

/// Three micrometres times the square of the samples from the turn.
std::vector<int> parabola(int before, int after) {
  std::vector<int> heights;
  for (int i = -before; i <= after; ++i) heights.push_back(3 * i * i);
  return heights;
}

TEST(Shown, TurnRunAndOpenness) {
  const auto pass = shown(parabola(10, 12));
  ASSERT_TRUE(pass);
  EXPECT_NEAR(pass->turn, 0, 0.0005);
  EXPECT_NEAR(pass->run, 0.003, 1e-9);
  ASSERT_TRUE(pass->openness);
  EXPECT_NEAR(*pass->openness, 2, 0.02);
}

TEST(Shown, OpennessOfLingeringAndOfJerking) {
  std::vector<int> lingering, jerked;
  for (int i = -10; i <= 10; ++i) {
    lingering.push_back(i * i * i * i / 20);
    jerked.push_back(std::abs(i) * 30);
  }
  EXPECT_LT(*shown(lingering)->openness, 1.7);
  EXPECT_GT(*shown(jerked)->openness, 2.8);
}

TEST(Shown, NoOpennessWhereNoiseOrFewSamplesHideIt) {
  EXPECT_TRUE(shown(parabola(8, 8))->openness);    // its side is 0.192 mm
  EXPECT_FALSE(shown(parabola(7, 20))->openness);  // 0.147 mm
  EXPECT_FALSE(shown({400, 270, 100, 5, 60, 210, 380})->openness);
}

TEST(Shown, FourSamplesBetweenTheHeights) {
  EXPECT_TRUE(shown({300, 130, 10, 12, 140, 310}));
  EXPECT_TRUE(shown({300, 120, 20, 0, 160, 310}));  // by chance the lower half holds none after the smallest
  EXPECT_EQ(shown({300, 60, 10, 70, 310}).error(), NoTurning::too_fast);
}

TEST(Shown, OneSideWithoutSamplesIsOneSided) {
  auto lifted = parabola(10, 0);
  lifted.push_back(300);
  EXPECT_EQ(shown(lifted).error(), NoTurning::one_sided);
  EXPECT_EQ(shown({300, 192, 108, 48, 12, 1, 2, 0, 300}).error(), NoTurning::one_sided);
  lifted.insert(lifted.end() - 1, {1, 2, 1});  // it shook before it was lifted
  EXPECT_TRUE(shown(lifted));
  lifted = parabola(14, 0);
  lifted.insert(lifted.end(), {8, 600});
  EXPECT_EQ(shown(lifted).error(), NoTurning::one_sided);
}

TEST(Shown, ARestBesideTheTurnIsNoPartOfIt) {
  auto heights = parabola(14, 8);
  heights.insert(heights.end(), 500, heights.back());
  const auto rise = parabola(0, 14);
  heights.insert(heights.end(), rise.begin() + 9, rise.end());
  const auto pass = shown(heights);
  ASSERT_TRUE(pass);
  EXPECT_NEAR(pass->turn, 0, 0.005);
}

}  // namespace
}  // namespace tenth::stream
