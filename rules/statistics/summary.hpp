#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "rules/length.hpp"

/// Statistics of readings. They take plain numbers in one unit, usually millimetres, and answer in that unit: these are
/// estimates, not lengths. `millimetres` is the one place where a length becomes such a number.
/// Too few readings, or numbers that are none, are a Refusal; no answer ever holds a NaN or an infinity.
namespace tenth::statistics {

using Values = std::span<const double>;

/// The double nearest to the exact length.
constexpr double millimetres(Length length) {
  return static_cast<double>(length.pm()) / 1e9;
}

/// The confidence of every interval and the level of every test: 95 %, common practice.
inline constexpr double kConfidence = 0.95;

struct Interval {
  double lower = 0, upper = 0;
  bool holds(double x) const { return lower <= x && x <= upper; }
};

struct Summary {
  std::size_t count = 0;
  double mean = 0;
  double squares = 0;    ///< sum of the squared differences from the mean
  double deviation = 0;  ///< standard deviation, divisor count - 1
  double least = 0, most = 0;
};

/// Mean and standard deviation of at least two numbers (`too_few`), all finite and within ±1e15 (`no_number`). Worked
/// from the differences to the first one in two passes, so a large common offset costs no digits.
Result<Summary> describe(Values values);

/// Refused unless there are at least `least` numbers that `describe` takes; `what` begins the message.
Result<void> usable(Values values, std::size_t least, std::string_view what);

/// `describe` for at least one number that is known to be usable; a single one has no deviation (0).
Summary summarize(Values values);

/// A sum whose rounding does not grow with the number of terms (Neumaier's compensated sum).
class Sum {
 public:
  void add(double term);
  double value() const { return sum_ + lost_; }

 private:
  double sum_ = 0, lost_ = 0;
};

/// A sum of `count` squares as it counts: what the rounding of numbers as large as `largest` can make up is no scatter,
/// and counts as 0.
double scatter(double squares, std::size_t count, double largest);

/// a / b; none where b is 0 or the quotient leaves the range of a double.
std::optional<double> quotient(double a, double b);

}  // namespace tenth::statistics
