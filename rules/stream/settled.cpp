#include "rules/stream/settled.hpp"

namespace tenth::stream {

std::optional<Length> Settled::take(const Sample& sample) {
  if (settled_ && (sample.value - *settled_).magnitude() < kLeft) return std::nullopt;
  settled_.reset();
  add(sample);
  forget_what_lies_apart();
  if (Wide{sample.at_ns} - began_ns_ < Wide{for_ms_} * 1'000'000) return std::nullopt;
  lows_.clear();
  highs_.clear();
  return settled_ = sample.value;
}

void Settled::add(const Sample& sample) {
  if (lows_.empty()) {
    began_ns_ = sample.at_ns;
  } else {
    lows_.back().next_ns = highs_.back().next_ns = sample.at_ns;
  }
  while (!lows_.empty() && lows_.back().value >= sample.value) lows_.pop_back();
  while (!highs_.empty() && highs_.back().value <= sample.value) highs_.pop_back();
  lows_.push_back({sample.value});
  highs_.push_back({sample.value});
}

/// Before the newest came all lay within the band; so it is the smallest or the largest where they no longer do.
void Settled::forget_what_lies_apart() {
  while (highs_.front().value - lows_.front().value > band_) {
    auto& opposite = lows_.size() == 1 ? highs_ : lows_;
    began_ns_ = opposite.front().next_ns;
    opposite.pop_front();
  }
}

}  // namespace tenth::stream
