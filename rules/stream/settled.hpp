#pragma once

#include <cstdint>
#include <deque>
#include <optional>

#include "rules/stream/sample.hpp"

namespace tenth::stream {

/// Finds where the stream of one gauge comes to rest (`--capture settled`): once per approach.
class Settled {
 public:
  static constexpr Length kLeft = Length::from_um(300);  ///< so far from the settled value the gauge was taken away

  Settled(Length band, std::int64_t for_ms) : band_(band), for_ms_(for_ms) {}

  /// Feed every value, in the order of arrival. Gives the sample's own value when it and all before it, for `for_ms`,
  /// lie within `band` of each other; then nothing until a value has left the settled one by 0.3 mm.
  std::optional<Length> take(const Sample& sample);

 private:
  struct Kept {
    Length value;
    std::int64_t next_ns = 0;  ///< arrival of the sample after it
  };

  void add(const Sample& sample);
  void forget_what_lies_apart();

  Length band_;
  std::int64_t for_ms_;
  std::optional<Length> settled_;  ///< until values leave it
  std::int64_t began_ns_ = 0;      ///< all values since then lie within the band
  /// Of those values, in the order of arrival, the ones that no later one is under (over): the first is the smallest
  /// (largest), the last is the newest of all. Never more than the band holds different values.
  std::deque<Kept> lows_, highs_;
};

}  // namespace tenth::stream
