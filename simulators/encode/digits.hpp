#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace tenth::simulators {

/// One unit of the last decimal, in millionths.
std::int64_t last_decimal(int decimals);

/// A number that is not negative, with zeros before it where it has fewer digits.
std::string padded(std::int64_t number, std::size_t digits);

/// `count` units of the last decimal without sign: 83012 with 3 decimals is "83.012".
std::string fixed(std::int64_t count, int decimals, char point);

/// The same as one digit, a point, the others and a power of ten (NR3 of IEEE 488.2): "8.3012E+01".
std::string scientific(std::int64_t count, int decimals, char point);

/// What a number that does not fit is refused with.
std::string too_few_digits(const std::string& format);

}  // namespace tenth::simulators
