#pragma once

#include "schema/json/json.hpp"

namespace tenth::cli {

/// A report with every verdict in it: bores in millimetres, one clearance too tight, one not yet measured.
Json sample_report();

Json size_of(const std::string& feature, int index, double mean, double min, double max, const char* verdict);
Json fit_of(const std::string& fit, int index, const Json& min, const Json& max, const char* verdict);
Json reason(const char* what, double value, double limit, const char* side, const char* verdict);

}  // namespace tenth::cli
