#pragma once

#include <span>
#include <tl/expected.hpp>

#include "rules/stream/turning.hpp"

namespace tenth::stream {

/// A sample of one pass. An estimate is made of these: floating point serves.
struct Point {
  double x = 0;       ///< time after the smallest sample of the pass, as an angle: from pass to pass it is π
  double height = 0;  ///< above that sample, mm
};

/// Where the curve through the points turns.
struct Turn {
  double height = 0;    ///< of its lowest point, mm
  double openness = 0;  ///< how much wider it is half up to its lower side than an eighth up; 2 for a parabola
};

/// The terms of the curve, and so the fewest points that give one.
inline constexpr std::size_t kTerms = 5;

/// Fits, by least squares, the curve of a gauge that swings like a pendulum. It stands askew by θ = a + b sin x and
/// shows size / cos θ, for small angles a parabola in θ: whatever a, b and the beginning of x are, a sum of 1, sin x,
/// cos x, sin 2x and cos 2x. A hand that moves otherwise is followed as by the first five powers of time, of which that
/// is another form. (Vertex of the least squares parabola: common practice; the further terms are for few values in a
/// pass, where only that parabola's ends are seen.) Higher points weigh less: there the value runs, and a late arrival
/// falsifies it most. Too fast: the points do not determine a curve. One-sided: it does not turn between the first and
/// the last. `side` is the height of the pass's lower side, mm.
tl::expected<Turn, NoTurning> fit_turn(std::span<const Point> points, double side);

}  // namespace tenth::stream
