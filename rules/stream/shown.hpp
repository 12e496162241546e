#pragma once

#include <optional>
#include <span>
#include <tl/expected.hpp>

#include "rules/stream/passes.hpp"
#include "rules/stream/turning.hpp"

namespace tenth::stream {

/// What one pass shows. Heights are above its smallest sample, mm.
struct Shown {
  double turn = 0;  ///< height of the turn; below zero where the samples missed it
  double run = 0;   ///< height of the two samples beside the smallest: how far the value runs between samples
  /// How many times wider the pass is half up to its lower side than an eighth up, where enough samples lie there to
  /// say: twice for a parabola.
  std::optional<double> openness;
};

/// `time_ns` is what passes take typically, from turn to turn.
/// Too fast: too few samples to see a turn. One-sided: all lie on one side of it.
tl::expected<Shown, NoTurning> shown_by(const Pass& pass, std::span<const Sample> samples, double time_ns);

}  // namespace tenth::stream
