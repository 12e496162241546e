#pragma once

#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "rules/stream/sample.hpp"

namespace tenth::stream {

/// The turning point of a rocked gauge: the size where it stands square.
struct Turning {
  Length value;    ///< rounded half away from zero to the step asked for
  Length spread;   ///< of the passes, largest less smallest, rounded likewise
  int passes = 0;  ///< that `value` is made of

  friend bool operator==(const Turning&, const Turning&) = default;
};

/// Why a stretch of stream has no turning point.
enum class NoTurning {
  too_few,    ///< fewer than three passes
  too_fast,   ///< passes hold too few values near their turn
  one_sided,  ///< the gauge came back before the turn, or never reached it
  disagree,   ///< the turns of the passes lie too far apart to be one size
};

std::string_view name(NoTurning);
/// For people.
struct Explained {
  std::string what;    ///< happened
  std::string remedy;  ///< what to do
};
Explained explain(NoTurning);

/// The turning point of a gauge that was rocked through its smallest size several times within `samples`, which are in
/// the order of their arrival. `step` is a tenth of the frames' last decimal; above zero.
tl::expected<Turning, NoTurning> turning_point(std::span<const Sample> samples, Length step);

}  // namespace tenth::stream
