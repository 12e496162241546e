#pragma once

#include <string>

#include "schema/export/html/results.hpp"

namespace tenth::page {

/// All indices of one feature: pictures of their outlines, or bars where roundness was not measured, and the figures.
/// Empty for a check.
std::string feature_section(const Results& results, const Feature& feature);

}  // namespace tenth::page
