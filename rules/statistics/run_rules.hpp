#pragma once

#include <vector>

#include "rules/names.hpp"
#include "rules/statistics/summary.hpp"

namespace tenth::statistics {

/// The usual signs that chance alone does not explain on a chart (common practice, in the usual order).
enum class RunRule {
  one_beyond_three_sigma,
  nine_on_one_side,
  six_rising_or_falling,
  fourteen_alternating,
  two_of_three_beyond_two_sigma,
  four_of_five_beyond_one_sigma,
  fifteen_within_one_sigma,
  eight_beyond_one_sigma,
};
/// Two of three and four of five lie on one side; eight beyond one sigma lie on either.
inline constexpr Names<RunRule, 8> kRunRules{{
    "one_beyond_three_sigma",
    "nine_on_one_side",
    "six_rising_or_falling",
    "fourteen_alternating",
    "two_of_three_beyond_two_sigma",
    "four_of_five_beyond_one_sigma",
    "fifteen_within_one_sigma",
    "eight_beyond_one_sigma",
}};

struct RuleFired {
  RunRule rule{};
  std::size_t index = 0;  ///< of the value that completes it
  friend bool operator==(const RuleFired&, const RuleFired&) = default;
};

/// Every rule at every value that completes it, by value and then by rule. A value on a line is neither beyond nor
/// within; without scatter (sigma 0) only rises, falls and alternations can be told.
Result<std::vector<RuleFired>> run_rules(Values values, double centre, double sigma);

}  // namespace tenth::statistics
