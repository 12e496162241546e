#pragma once

/// The distributions that tests and intervals rest on (Boost.Math). Degrees of freedom are positive.
namespace tenth::statistics {

/// The point above which the share `tail`, 0 < tail < 1, of the distribution lies.
double student_point(double tail, double freedom);
double fisher_point(double tail, double above, double below);
double chi_squared_point(double tail, double freedom);

/// The share of Student's t that lies at least as far from 0 as `t`, on both sides together.
double student_beyond(double t, double freedom);
/// The share of Fisher's F above `f` ≥ 0.
double fisher_beyond(double f, double above, double below);

/// The share of the standard normal distribution below `z`.
double normal_below(double z);

}  // namespace tenth::statistics
