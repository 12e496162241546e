#pragma once

#include <string>
#include <string_view>

#include "rules/length.hpp"

namespace tenth {

/// An ISO 286 tolerance class taken apart: "83 JS7" is 83 mm, "js", a hole, 7.
struct ToleranceClass {
  Length nominal;
  std::string letters;  ///< of the deviation, small whether of a hole or a shaft
  std::string written;  ///< as they stand in the text
  bool hole = false;
  int grade = 0;  ///< IT01 is -1
};

/// Refused (4): anything but a size in millimetres, an optional blank, one or two letters of one case, and a grade as
/// the standard writes it ("01", "0", "1", …). Whether the standard has such a class is not asked.
Result<ToleranceClass> parse_tolerance_class(std::string_view size);

}  // namespace tenth
