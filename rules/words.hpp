#pragma once

#include <string>
#include <string_view>

#include "rules/reading.hpp"

namespace tenth {

// What is shown and said, in the words of the trade.

/// A size as it is shown: to a tenth or a micrometre, and up to two places finer where the length has them: "3.26805".
std::string decimals(Length length, Unit unit);

/// How far apart two lengths are, without a sign. In inches "half a tenth", "two tenths", "1.5 tenths", "one thou",
/// "1.3 thou", from 100 thou on "0.1250 in"; in millimetres "0.005 mm". Only nothing is said as nothing: what would
/// round to it is said in millimetres, exactly.
std::string said(Length distance, Unit unit);

/// Where a size stands: against the limit that it is past, else against the nearer one: "two tenths under the upper
/// limit", "0.005 mm under the lower limit", "on the upper limit", "one thou inside both limits". Empty without limits.
std::string against(Length size, const Limits& limits, Unit unit);

/// What speaks against a reading: "the decimal point may have slipped". True at once and in a record years later.
std::string_view plainly(Doubt doubt);

}  // namespace tenth
