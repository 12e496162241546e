#include "rules/stream/rocking.hpp"

#include <algorithm>

#include "rules/stream/passes.hpp"

namespace tenth::stream {
namespace {

constexpr std::int64_t kAway_ns = 800'000'000;

}  // namespace

std::optional<Rocking::Answer> Rocking::take(const Sample& sample) {
  if (running_.size() == kMost) forget_before(kMost / 2);
  add(sample);
  if (Wide{sample.at_ns} - running_[last_near_].at_ns < kAway_ns) return std::nullopt;
  const std::size_t away = last_near_ + 1;
  const auto ended = answer(away + 1);  // the first sample away shows the rise after the last pass
  // From the highest on they may be the way into the next bore; before it they are the way out of this one.
  const auto rest = std::span(running_).subspan(away);
  const auto highest = std::ranges::max_element(rest, {}, &Sample::value);
  forget_before(away + static_cast<std::size_t>(highest - rest.begin()));
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
