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

/// The terms of the curve, and so the fewest points that give one.
inline constexpr std::size_t kTerms = 5;

/// The height, mm, at which the curve through the points turns. Fits, by least squares, the curve of a gauge that
/// swings like a pendulum: it stands askew by θ = a + b sin x and shows size / cos θ, for small angles a parabola in θ;
/// whatever a, b and the beginning of x are, that is a sum of 1, sin x, cos x, sin 2x and cos 2x. Another motion of the
/// hand is followed as well as by a polynomial of fourth degree. (Vertex of the least squares parabola: common
/// practice; the further terms are for the few values of a fast pass, which reach beyond where a parabola serves.)
/// Higher points weigh less: there the value runs, and a late arrival falsifies it most.
/// Too fast: the points do not determine a curve. One-sided: it does not turn between the first and the last.
tl::expected<double, NoTurning> fit_turn(std::span<const Point> points);

}  // namespace tenth::stream
