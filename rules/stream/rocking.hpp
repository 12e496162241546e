#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "rules/stream/turning.hpp"

namespace tenth::stream {

/// Finds the rockings in the stream of one gauge (`--capture turning`) and gives each one's answer when it ends: when
/// for 0.8 s no value lay within 0.6 mm of its smallest, or the stream stopped. Values that never turn give nothing.
class Rocking {
 public:
  using Answer = tl::expected<Turning, NoTurning>;

  /// Samples kept of one rocking, over a minute at 50 a second. When they are full, the older half is forgotten: what
  /// lies about for hours before somebody rocks it costs no memory, and a rocking that long is known by its end.
  static constexpr std::size_t kMost = 4096;

  /// `step` as for `turning_point`.
  explicit Rocking(Length step) : step_(step) {}

  /// Feed every value, in the order of arrival.
  std::optional<Answer> take(const Sample& sample);
  /// The stream stopped: the port is gone, or the gauge is silent.
  std::optional<Answer> stopped();

  /// The stretch that the last answer was made of, until the next answer.
  std::span<const Sample> samples() const { return ended_; }

 private:
  void add(const Sample& sample);
  /// Goes on with the samples from index `first` on, as if nothing had come before them.
  void forget_before(std::size_t first);
  std::optional<Answer> answer(std::size_t count);

  Length step_;
  Length smallest_;            ///< of `running_`
  std::size_t last_near_ = 0;  ///< index of the last sample within 0.6 mm of it
  std::vector<Sample> running_, ended_;
};

}  // namespace tenth::stream
