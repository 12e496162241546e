#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/length.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// One line of a report before it is laid out.
struct CheckLine {
  std::string verdict;               ///< empty: nothing judged
  std::string name, label;           ///< label empty where there is one index only
  std::vector<std::string> figures;  ///< all lines of a section have as many
  std::vector<std::string> remarks;  ///< the weightiest first; shown as far as there is room
};

CheckLine size_line(const Json& feature, Unit unit);
/// A part that came back, held against the size that was asked for.
CheckLine returned_line(const Json& part, Unit unit);
CheckLine fit_line(const Json& fit, Unit unit);
CheckLine spread_line(const Json& spread, Unit unit);
CheckLine answer_check_line(const Json& check);

}  // namespace tenth::cli
