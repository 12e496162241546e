#include "rules/statistics/plan.hpp"

#include <algorithm>
#include <numeric>
#include <string>
#include <utility>

namespace tenth::statistics {
namespace {

/// SplitMix64. Unlike the standard library's distributions it gives the same numbers everywhere.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}

  /// One of 0 to count - 1. The remainder favours none by more than count/2^64, far below what any study could show.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }

 private:
  std::uint64_t next() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15U;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  std::uint64_t state_;
};

/// 1 to count in random order.
std::vector<int> shuffled(int count, Random& random) {
  std::vector<int> numbers(static_cast<std::size_t>(count));
  std::iota(numbers.begin(), numbers.end(), 1);
  for (std::size_t left = numbers.size(); left > 1; --left) std::swap(numbers[left - 1], numbers[random.below(left)]);
  return numbers;
}

}  // namespace

Result<std::vector<StudyPlace>> study_plan(int parts, int operators, int trials, std::uint64_t seed) {
  constexpr std::int64_t kMost = 10'000;
  const auto fits = [](int count) { return count >= 1 && count <= kMost; };
  if (!fits(parts) || !fits(operators) || !fits(trials) || std::int64_t{parts} * operators * trials > kMost)
    return refuse("study_size",
                  "a study of " + std::to_string(parts) + " parts, " + std::to_string(operators) + " operators and " +
                      std::to_string(trials) + " trials",
                  "give at least 1 of each, and at most 10000 readings in all");
  Random random(seed);
  std::vector<StudyPlace> places;
  for (int trial = 1; trial <= trials; ++trial)
    for (const int by : shuffled(operators, random))
      for (const int part : shuffled(parts, random)) places.push_back({part, by, trial});
  return places;
}

}  // namespace tenth::statistics
