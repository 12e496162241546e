#pragma once

#include <string>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// The wire formats, told in `simulators/README.md`. Written from their description alone, apart from the decoders.
enum class Speaks { line, bcd13, bin24, query, modbus };

/// The numbers of IEEE 488.2: a whole number, one with a point, one with an exponent.
enum class Number { nr2, nr1, nr3 };

/// What a gauge shows and how it sends that.
struct Display {
  Speaks speaks = Speaks::line;
  Unit unit = Unit::mm;
  int decimals = 3;             ///< line: 0 to 6; bcd13: 0 to 5; bin24 has its own steps
  std::string end = "\r";       ///< of every frame
  bool plus = false;            ///< line, query: a plus where not negative
  char point = '.';             ///< line: or a comma
  bool names_unit = false;      ///< line: the unit after the number
  int width = 0;                ///< line: the number with its sign is filled up to so many characters
  char lead = ' ';              ///< line: with blanks before the sign, or zeros after it
  std::string channel{};        ///< line: stands first, with the separator after it
  std::string separator{};      ///< line
  std::string suffix{};         ///< line: after number and unit
  std::string status{};         ///< line: the last of the frame
  bool exponent = false;        ///< line: the number as NR3 has it
  Number number = Number::nr2;  ///< query
};

/// How many steps of its last decimal (bin24: of its own) the display shows.
std::int64_t count_shown(const Display& display, Amount amount, Unit unit);

/// The frame, end included, of a gauge that shows `amount` (in `unit`). Refused where the display has too few digits.
Result<std::string> frame(const Display& display, Amount amount, Unit unit);

/// The same gauge switched to the other unit: an inch display has one decimal more.
Display switched(Display display, Unit unit);

}  // namespace tenth::simulators
