#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/result.hpp"

namespace tenth {

/// One record of a table and the line that it begins on, from 1.
struct CsvRow {
  int line = 1;
  std::vector<std::string> cells;
};

/// The records of a table by RFC 4180: CR LF or LF, cells in double quotes may hold the separator, line breaks and
/// doubled quotes. Blank lines are left out. Refused (4, `import`) with the line: a quote that does not end, or text
/// after one that did. `file` is for the message.
Result<std::vector<CsvRow>> csv_rows(std::string_view text, char separator, const std::string& file);

}  // namespace tenth
