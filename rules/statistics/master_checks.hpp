#pragma once

#include <vector>

#include "rules/statistics/line.hpp"

/// How far a gauge's readings of masters lie from what these are, over the range and over time.
namespace tenth::statistics {

/// Readings of one master: their mean less what the master is, tested against 0 (one-sample t test).
struct Bias {
  Summary readings;
  Estimate bias;
};
/// Refused: fewer than two readings (`too_few`).
Result<Bias> bias(Values readings, double reference);

/// Does the bias change over the range of the gauge? Readings of masters of several sizes: the line of bias over
/// reference. A slope that is real: not linear; an intercept that is real: biased.
struct MasterReading {
  double reference = 0, value = 0;
};
struct MasterBias {
  double reference = 0;
  Summary biases;  ///< of its readings
  Interval band;   ///< 95 % band of the line here
};
struct Linearity {
  Line line;                        ///< of bias over reference
  std::vector<MasterBias> masters;  ///< by size
  bool acceptable = false;          ///< zero bias lies within the band at every master (common practice)
  /// Fisher's test of the masters' means off the line against the scatter of repeats (ISO 11095); none without repeats
  /// or with two masters only. A small p: the bias does not follow a straight line.
  std::optional<double> lack_f, lack_p;
};
/// Refused: fewer than three readings (`too_few`), a single master (`no_span`).
Result<Linearity> linearity(std::span<const MasterReading> readings);

/// What repeated checks of one master show over time.
struct MasterCheck {
  double days = 0;   ///< since any beginning
  double value = 0;  ///< reading less master
};
struct Drift {
  Line line;           ///< of value over days
  Estimate per_month;  ///< a month is 30.4375 days
};
/// Refused: fewer than three checks (`too_few`), all at one time (`no_span`).
Result<Drift> drift(std::span<const MasterCheck> checks);

/// Days from a setting until the drift has used up what is allowed: as it is likely, and at the fastest drift that the
/// interval holds. None where such a drift never gets there.
struct SetAgain {
  std::optional<double> likely_days, earliest_days;
};
SetAgain set_again(const Drift& drift, double allowed);

}  // namespace tenth::statistics
