#pragma once

namespace tenth::statistics {

/// Factors that turn ranges into standard deviations. `size` readings of a normal distribution with standard deviation
/// 1 have a range of mean d2 and standard deviation d3; both are integrated numerically to about 12 digits, for sizes
/// from 2 on (definitions: any textbook of statistical quality control).
double d2(int size);
double d3(int size);

/// The mean of `groups` ranges squares to sigma squared times this squared, on average: √(d2² + d3²/groups).
double d2_star(int size, int groups);

/// Upper limit of ranges over their mean: 1 + 3 d3/d2 (common practice: three sigma).
double range_limit_factor(int size);

}  // namespace tenth::statistics
