#pragma once

#include <span>
#include <vector>

#include "rules/stream/sample.hpp"

namespace tenth::stream {

/// One way of the gauge through its smallest value: down from one height and up to the next.
struct Pass {
  std::size_t from = 0, lowest = 0, to = 0;  ///< samples: the heights at both sides, and the smallest between them
};

/// A fall and a rise by less is noise or an unsteady hand: far above the noise of gauges that read micrometres, far
/// below the tenths of a millimetre by which people rock.
inline constexpr Length kRise = Length::from_um(30);

/// Values this far above the smallest are the gauge on its way in or out.
inline constexpr Length kNear = Length::from_um(600);

/// The passes in the order of their arrival; neighbours share the sample at the height between them. What only falls or
/// only rises, at the ends of the stretch, is no pass.
std::vector<Pass> passes_of(std::span<const Sample> samples);

}  // namespace tenth::stream
