#pragma once

#include <string>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// The wire formats, told in `simulators/README.md`. Written from their description alone, apart from the decoders.
enum class Speaks { line, bcd13, bin24 };

/// What a gauge shows and how it sends that.
struct Display {
  Speaks speaks = Speaks::line;
  Unit unit = Unit::mm;
  int decimals = 3;         ///< line: 0 to 6; bcd13: 0 to 5; bin24 has its own steps
  std::string end = "\r";   ///< of every frame
  bool plus = false;        ///< line: a plus where not negative
  char point = '.';         ///< line: or a comma
  bool names_unit = false;  ///< line: the unit after the number
};

/// The frame, end included, of a gauge that shows `amount` (in `unit`). Refused where the display has too few digits.
Result<std::string> frame(const Display& display, Amount amount, Unit unit);

/// The same gauge switched to the other unit: an inch display has one decimal more.
Display switched(Display display, Unit unit);

}  // namespace tenth::simulators
