#pragma once

#include "rules/judge.hpp"
#include "schema/export/paper/paper.hpp"

namespace tenth::paper {

/// Every figure of the report to its last digit, in millimetres, as the JSON record gives it.
std::vector<Part> figures_parts(const Report& report);

}  // namespace tenth::paper
