#pragma once

#include <string_view>

#include "rules/result.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// The limits of size of an ISO 286 tolerance class: a nominal size in millimetres, an optional blank, a fundamental
/// deviation and a grade, such as "83 H7", "52.5 js6" or "60 k6". Capitals are holes, small letters are shafts.
/// Covered: over 0 up to 3150 mm, IT01 to IT18 (to 500 mm; IT1 to IT18 above), the deviations a to zc as far as the
/// standard gives them for a size, holes by its rules from the shafts (`iso286_tables.hpp` says how sure the cells
/// are). js and JS are exactly half the tolerance each way, also where the standard lets tables round it to
/// micrometres. Refused (4) with what would be right: no class, none in the standard, or one of which we are not sure:
/// j and J, cd to fg over 10 mm, K to ZC finer than IT3 over 3 up to 500 mm, K above IT8 over 3 mm, M and N above IT8
/// over 500 mm.
Result<Limits> iso286_limits(std::string_view size);

}  // namespace tenth
