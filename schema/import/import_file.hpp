#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/length.hpp"
#include "rules/place.hpp"
#include "rules/result.hpp"

namespace tenth {

/// One figure of a table that somebody brought.
struct ImportRow {
  int line = 0;
  Place place;
  std::string text;  ///< the value as it stands in the table
  Unit unit = Unit::mm;
  Length value;
  std::string time, operator_name, gauge, note;  ///< as the table says; empty: it does not
};

/// More than any engine has places; what it takes to store and tell them holds up the gauges.
inline constexpr std::size_t kMostImportRows = 1000;

/// Reads a table of sizes in UTF-8 CSV (RFC 4180; with `;` between cells decimals have a comma). Its first line names
/// the columns, of `feature,index,level,axis,value,unit,time,operator,gauge,note` in any order; `feature` and `value`
/// must be there. Places are those of the spec, named as in a command; a value without a unit is in `bare`. Times are
/// RFC 3339 or days. Refused (4, `import`) with file and line at the first thing wrong: all rows are right, or none is
/// taken.
Result<std::vector<ImportRow>> read_import(std::string_view text, const std::string& file, const Spec& spec, Unit bare);

}  // namespace tenth
