#pragma once

#include <vector>

#include "rules/statistics/summary.hpp"

namespace tenth::statistics {

/// Readings that lie too far from the others to belong to them, as far as these are normally distributed. They are
/// shown to the builder and never dropped.

/// The chance taken of calling a sound reading an outlier: 5 %, common practice.
inline constexpr double kOutlierLevel = 0.05;

struct Farthest {
  std::size_t index = 0;  ///< of the reading farthest from the mean
  double distance = 0;    ///< from the mean in standard deviations; 0 where all readings are alike
  double critical = 0;    ///< beyond it the reading is an outlier
  bool outlier = false;
};

/// Grubbs' test, two-sided, of at least three readings (ISO 5725-2; critical value from Student's t). Of three readings
/// of which two are alike the third is always an outlier.
Result<Farthest> grubbs(Values values, double level = kOutlierLevel);

/// How often chance alone goes so far in `count` readings: Bonferroni's bound of Grubbs' statistic, at most 1.
double grubbs_beyond(double distance, std::size_t count);

/// Grubbs' critical distance in `count` ≥ 3 readings, two-sided.
double grubbs_critical(std::size_t count, double level = kOutlierLevel);

struct Outliers {
  std::vector<Farthest> steps;  ///< the farthest of what the steps before left, as long as `most` says
  std::size_t count = 0;        ///< so many first steps are outliers, though single ones among them may not look so
};

/// Generalized extreme studentized deviate: up to `most` outliers, which may hide each other, in at least most + 2
/// readings (`too_few`). Rosner 1983; reliable from 15 readings on. `index` counts in `values`.
Result<Outliers> generalized_esd(Values values, std::size_t most, double level = kOutlierLevel);

}  // namespace tenth::statistics
