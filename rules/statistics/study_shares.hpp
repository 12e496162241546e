#pragma once

#include "rules/statistics/study.hpp"

namespace tenth::statistics {

/// What both methods of a study say in the same way.
Share share(double sigma, double total, std::optional<double> tolerance);
std::optional<double> distinct_categories(double parts_sigma, double gauge_sigma);

}  // namespace tenth::statistics
