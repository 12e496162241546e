#include "rules/stream/rocking.hpp"

#include "rules/stream/passes.hpp"

namespace tenth::stream {
namespace {

constexpr std::int64_t kAway_ns = 800'000'000;

}  // namespace

std::optional<Rocking::Answer> Rocking::take(const Sample& sample) {
  if (running_.size() == kMost) forget_before(kMost / 2);
  add(sample);
  if (Wide{sample.at_ns} - running_[last_near_].at_ns < kAway_ns) return std::nullopt;
  // The first sample that is not near shows the rise after the last pass; it and the others may begin the next rocking.
  const auto ended = answer(last_near_ + 2);
  forget_before(last_near_ + 1);
  return ended;
}

std::optional<Rocking::Answer> Rocking::stopped() {
  const auto ended = answer(running_.size());
  forget_before(running_.size());
  return ended;
}

void Rocking::add(const Sample& sample) {
  if (running_.empty() || sample.value < smallest_) smallest_ = sample.value;
  if (sample.value - smallest_ <= kNear) last_near_ = running_.size();
  running_.push_back(sample);
}

void Rocking::forget_before(std::size_t first) {
  const std::vector<Sample> rest(running_.begin() + static_cast<std::ptrdiff_t>(first), running_.end());
  running_.clear();
  for (const Sample& sample : rest) add(sample);
}

/// What the first `count` samples give; nothing where none of them turns.
std::optional<Rocking::Answer> Rocking::answer(std::size_t count) {
  const auto stretch = std::span(running_).first(count);
  if (passes_of(stretch).empty()) return std::nullopt;
  ended_.assign(stretch.begin(), stretch.end());
  return turning_point(ended_, step_);
}

}  // namespace tenth::stream
