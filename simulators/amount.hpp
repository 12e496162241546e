#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace tenth::simulators {

/// A value, or one line that says what is wrong and what would be right.
template <class T>
using Result = tl::expected<T, std::string>;

enum class Unit { mm, in };

/// A decimal number of some unit, exactly: an integer of millionths. Less than 10 000 units either way.
struct Amount {
  std::int64_t millionths = 0;
  friend Amount operator+(Amount a, Amount b) { return {a.millionths + b.millionths}; }
  friend Amount operator-(Amount a, Amount b) { return {a.millionths - b.millionths}; }
  friend bool operator==(Amount, Amount) = default;
};

/// "83.012", "-0.0003", "+4": at most four digits before the point and six after it.
Result<Amount> parse_amount(std::string_view text);

/// How many steps of `step_millionths` of the unit `to` a display shows: rounded to the nearest, halves away from zero.
/// An inch is 25.4 mm exactly.
std::int64_t steps(Amount amount, Unit from, Unit to, std::int64_t step_millionths);

Result<Unit> parse_unit(std::string_view text);

}  // namespace tenth::simulators
