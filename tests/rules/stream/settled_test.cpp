#include "rules/stream/settled.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <vector>

#include "tests/rules/printing.hpp"

namespace tenth::stream {
namespace {

constexpr std::int64_t ms = 1'000'000;
constexpr Length kBand = Length::from_um(3);
constexpr std::int64_t kFor_ms = 1000;

Sample at(std::int64_t at_ms, std::int64_t um) {
  return {at_ms * ms, Length::from_um(um)};
}

/// Feeds values every 50 ms and says at which of them something settled.
std::vector<std::size_t> settles(Settled& settled, const std::vector<int>& values_um) {
  std::vector<std::size_t> when;
  for (std::size_t i = 0; i < values_um.size(); ++i)
    if (settled.take(at(static_cast<std::int64_t>(i) * 50, values_um[i]))) when.push_back(i);
  return when;
}

std::vector<int> operator+(std::vector<int> a, const std::vector<int>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

const std::vector<int> kRest(30, 500);

TEST(Settled, AfterASecondWithinTheBand) {
  Settled settled(kBand, kFor_ms);
  EXPECT_FALSE(settled.take(at(0, 500)));
  EXPECT_FALSE(settled.take(at(500, 503)));
  EXPECT_FALSE(settled.take(at(999, 500)));
  EXPECT_EQ(settled.take(at(1000, 501)), Length::from_um(501));
}

TEST(Settled, NotWhileValuesLeaveTheBand) {
  Settled settled(kBand, kFor_ms);
  std::vector<int> values;
  for (int i = 0; i < 100; ++i) values.push_back(500 + 4 * (i % 2));
  EXPECT_TRUE(settles(settled, values).empty());
}

TEST(Settled, CountsFromTheFirstValueThatFitsAllLaterOnes) {
  Settled settled(kBand, kFor_ms);
  EXPECT_FALSE(settled.take(at(0, 490)));
  EXPECT_FALSE(settled.take(at(100, 500)));
  EXPECT_FALSE(settled.take(at(600, 503)));
  EXPECT_FALSE(settled.take(at(700, 506)));  // fits 503, no longer 500
  EXPECT_FALSE(settled.take(at(1599, 503)));
  EXPECT_EQ(settled.take(at(1600, 504)), Length::from_um(504));
}

TEST(Settled, OnceUntilValuesLeave) {
  Settled settled(kBand, kFor_ms);
  EXPECT_EQ(settles(settled, kRest + kRest + kRest), (std::vector<std::size_t>{20}));
  Settled drifted(kBand, kFor_ms);
  EXPECT_EQ(settles(drifted, kRest + std::vector<int>{799, 201} + kRest + kRest), (std::vector<std::size_t>{20}));
}

TEST(Settled, AgainAfterLeavingByThreeTenths) {
  for (const int away : {800, 200}) {
    Settled settled(kBand, kFor_ms);
    EXPECT_EQ(settles(settled, kRest + std::vector<int>{away} + kRest), (std::vector<std::size_t>{20, 51})) << away;
  }
}

TEST(Settled, TakesAnotherBandAndTime) {
  Settled settled(Length::from_um(10), 200);
  std::vector<int> values;
  for (int i = 0; i < 10; ++i) values.push_back(500 + 10 * (i % 2));
  EXPECT_EQ(settles(settled, values), (std::vector<std::size_t>{4}));
  Settled wide(Length::from_mm(1), 200);
  EXPECT_EQ(settles(wide, {500, 500, 500, 500, 500, 800, 800, 800, 800, 800}), (std::vector<std::size_t>{4, 9}));
  Settled at_once(Length(), 0);
  EXPECT_EQ(settles(at_once, {500, 900}), (std::vector<std::size_t>{0, 1}));
}

TEST(Settled, BearsAnyLengthAndTime) {
  Settled settled(kBand, kFor_ms);
  for (const std::int64_t at_ns : {INT64_MAX, INT64_MIN, INT64_MAX, std::int64_t{0}})
    for (const std::int64_t pm : {INT64_MIN, INT64_MAX, INT64_MIN}) settled.take({at_ns, Length::from_pm(pm)});
  Settled back(kBand, kFor_ms);
  for (int i = 100; i > 0; --i) EXPECT_FALSE(back.take(at(i * 50, 500)));
}

/// The same said slowly: look back from the newest as far as all lie within the band.
class Slow {
 public:
  std::optional<Length> take(const Sample& sample) {
    if (settled_ && (sample.value - *settled_).magnitude() < Settled::kLeft) return std::nullopt;
    settled_.reset();
    samples_.push_back(sample);
    Length low = sample.value, high = sample.value;
    std::int64_t began_ns = sample.at_ns;
    for (auto one = samples_.rbegin(); one != samples_.rend(); ++one) {
      low = std::min(low, one->value);
      high = std::max(high, one->value);
      if (high - low > kBand) break;
      began_ns = one->at_ns;
    }
    if (sample.at_ns - began_ns < kFor_ms * ms) return std::nullopt;
    samples_.clear();
    return settled_ = sample.value;
  }

 private:
  std::vector<Sample> samples_;
  std::optional<Length> settled_;
};

RC_GTEST_PROP(SettledProperties, SameAsLookingBackFromEveryValue, ()) {
  Settled settled(kBand, kFor_ms);
  Slow slow;
  std::int64_t at_ms = 0, um = 0;
  for (int i = 0; i < 300; ++i) {
    at_ms += *rc::gen::inRange(0, 200);
    um += *rc::gen::weightedOneOf<std::int64_t>(
        {{30, rc::gen::inRange<std::int64_t>(-1, 2)}, {1, rc::gen::inRange<std::int64_t>(-400, 400)}});
    RC_ASSERT((settled.take(at(at_ms, um)) == slow.take(at(at_ms, um))));
  }
}

}  // namespace
}  // namespace tenth::stream
