#pragma once

#include <optional>

#include "rules/length.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// The larger of two expanded uncertainties; none where one of them is not stated.
std::optional<Length> larger(std::optional<Length> a, std::optional<Length> b);

/// That of a size from a gauge that was set in another one: the root of the sum of their squares, rounded up to a
/// picometre; none where one of them is not stated.
std::optional<Length> joined(std::optional<Length> a, std::optional<Length> b);

/// √(a² + b²), exactly, rounded up to a picometre.
Length root_sum_of_squares(Length a, Length b);

/// The probability that a figure conforms: normal about the figure with a standard uncertainty of half the expanded
/// one (JCGM 106). An uncertainty of 0 gives 1 or 0.
double conforming(Length figure, const Limits& limits, Length expanded);

}  // namespace tenth
