#include <gtest/gtest.h>

#include "rules/stream/packed.hpp"
#include "rules/stream/rocking.hpp"
#include "rules/stream/settled.hpp"

namespace tenth::stream {
namespace {

constexpr Length kStep = Length::from_pm(100'000);
constexpr int kMany = 1'000'000;

// What is quadratic in a million samples does not end within the time that ctest gives a test. A pass is a long one,
// or there are very many; values fall by a picometre, or all are alike.

std::vector<Sample> many(int in_a_pass, std::int64_t by_pm) {
  std::vector<Sample> samples;
  for (int i = 0; i < kMany; ++i) {
    const int from_turn = std::abs(i % in_a_pass - in_a_pass / 2);
    samples.push_back({i * std::int64_t{1'000}, Length::from_pm(from_turn * by_pm)});
  }
  return samples;
}

TEST(Linear, TurningPoint) {
  const auto passes = turning_point(many(10, 100'000'000), kStep);
  ASSERT_TRUE(passes);
  EXPECT_GT(passes->passes, kMany / 10 - 10);
  for (const int in_a_pass : {kMany / 4, kMany * 2})
    EXPECT_EQ(turning_point(many(in_a_pass, 2'000), kStep).error(), NoTurning::one_sided) << in_a_pass;
}

TEST(Linear, Rocking) {
  for (const int in_a_pass : {10, kMany / 4, kMany * 2}) {
    Rocking rocking(kStep);
    for (const Sample& sample : many(in_a_pass, 100'000'000)) rocking.take(sample);
    rocking.stopped();
    EXPECT_LE(rocking.samples().size(), Rocking::kMost);
  }
}

TEST(Linear, Settled) {
  for (const std::int64_t by_pm : {0, 1, 100'000'000}) {
    Settled settled(Length::from_um(3), 1'000'000);
    int times = 0;
    for (const Sample& sample : many(kMany * 2, by_pm)) times += settled.take(sample) ? 1 : 0;
    EXPECT_EQ(times, 0);
  }
}

TEST(Linear, Packed) {
  const auto samples = many(10, 1'000);
  const auto back = unpack(pack(samples));
  ASSERT_TRUE(back);
  EXPECT_TRUE(*back == samples);
}

}  // namespace
}  // namespace tenth::stream
