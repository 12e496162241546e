#pragma once

#include <optional>

#include "rules/statistics/crossed.hpp"
#include "rules/statistics/one_way.hpp"

/// What a gauge study says of the gauge. Words: repeatability (equipment variation, EV), the operators' differences
/// (appraiser variation, AV), their interaction with the parts (IV), all of these together (GRR), the parts'
/// differences (PV) and everything (TV). Methods: common practice of measurement systems analysis.
namespace tenth::statistics {

/// A standard deviation and what it is part of, in percent.
struct Share {
  double sigma = 0;
  std::optional<double> of_total;      ///< 100 sigma / TV; none where TV is 0
  std::optional<double> of_tolerance;  ///< 100 × 6 sigma / tolerance; none without a tolerance
};

/// A cell whose trials scatter more than `range_limit`.
struct WideCell {
  int part = 0;
  std::string operator_name;
  double range = 0;
};

/// Average-and-range method. K1 = 1/d2(trials), K2 = 1/d2*(operators), K3 = 1/d2*(parts), each rounded to four decimals
/// as the data sheets print them: EV = K1 × mean range, AV = √((K2 × range of the operators' means)² - EV²/(parts ×
/// trials)) or 0, PV = K3 × range of the parts' means.
struct AverageAndRange {
  double k1 = 0, k2 = 0, k3 = 0;
  double mean_range = 0, range_limit = 0;  ///< the limit is D4(trials) × the mean
  std::vector<WideCell> wide;              ///< look at these first: misread, or not measured alike
  Share ev, av, grr, pv, tv;
  std::optional<double> categories;  ///< distinct categories: 1.41 PV/GRR without its decimals; none where GRR is 0
};
AverageAndRange average_and_range(const Crossed& study, std::optional<double> tolerance = {});

/// One component of variance: a weighted sum of mean squares.
struct Component {
  double computed = 0;  ///< the sum itself, which chance may take below 0
  double variance = 0;  ///< as it counts: never below 0; a whole is the sum of its parts
  Interval interval;    ///< 95 % of the variance, by variance_interval
  Share share;
};

/// The components under one model. `parts_test` and `operators_test` are Fisher's tests against the model's error.
struct Components {
  Source parts_test, operators_test;
  Component ev, av, iv, grr, pv, tv;
  std::optional<double> categories;
};

/// Analysis of variance, parts and operators taken at random, crossed, with interaction; and once more with the
/// interaction pooled with the repeatability.
struct StudyAnova {
  Source parts, operators, interaction, repeatability, pooled, total;  ///< interaction tested against repeatability
  Components with_interaction, without;
  bool pool = false;  ///< `without` is the one to use: p of the interaction above 0.25 (common practice), or no scatter
  const Components& best() const { return pool ? without : with_interaction; }
};
StudyAnova study_anova(const Crossed& study, std::optional<double> tolerance = {});

/// Is a gauge good enough for a limit? The width between two limits over its expanded uncertainty, by the rule of ten:
/// at least 10 good, at least 5 usable (common practice: the uncertainty takes a tenth, at most a fifth, of the width).
enum class Adequacy { good, usable, too_coarse };
struct LimitRatio {
  double ratio = 0;
  Adequacy adequacy = Adequacy::too_coarse;
};
/// None where no uncertainty is stated (0) or the limits leave no width.
std::optional<LimitRatio> limit_ratio(double width, double expanded);

}  // namespace tenth::statistics
