#pragma once

#include <span>
#include <vector>

#include "rules/stream/sample.hpp"

namespace tenth::stream {

/// The samples at the times at which the gauge sent them, as far as that can be told. A gauge that sends by itself does
/// so at an even rate; what comes uneven is the way through converters and programs, which hand on late or several at
/// once. Where arrivals jitter by more than a thirtieth of their interval and none seem to be missing, times are those
/// of the straight line through them (least squares over their number); else they are the arrivals.
std::vector<Sample> evened(std::span<const Sample> samples);

}  // namespace tenth::stream
