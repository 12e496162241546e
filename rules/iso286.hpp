#pragma once

#include <string_view>

#include "rules/result.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// The limits of size of an ISO 286 tolerance class: a nominal size in millimetres, an optional blank, a fundamental
/// deviation and a grade, such as "83 H7", "52.5 js6" or "60 k6". Capitals are holes, small letters are shafts.
/// Computed to the rules and rounding of ISO 286-1 (the cells that the standard's tables set by hand included).
/// Covered: over 3 mm up to 250 mm. Refused (4) with what would be right: anything else.
Result<Limits> iso286_limits(std::string_view size);

}  // namespace tenth
