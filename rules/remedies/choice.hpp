#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace tenth {

/// What a choice costs, the weightiest aim first: any of the first counts before all of the second. None is negative.
using Cost = std::array<std::int64_t, 3>;
Cost operator+(const Cost& a, const Cost& b);

/// One way to fill a row: up to two units it takes from the supplies (by number; -1: none), and what it costs.
struct Way {
  std::array<int, 2> takes = {-1, -1};
  Cost cost = {};
};

struct Choice {
  std::vector<std::size_t> position;  ///< of each row's way in its row
  bool proven = true;  ///< nothing is better; false: that would take too long, and this is the best one found
};

/// For every row one way, no supply taken beyond what there is, at the least cost. Exact. Empty where the supplies do
/// not suffice (or, not proven, where none was found). At most 200 rows; costs to 10^10.
///
/// Aim by aim, by branch and bound: rows filled by fractions of ways (the linear relaxation) give prices of the scarce
/// supplies, these a proven lower bound, and a supply that a row half takes is where the choices are parted.
std::optional<Choice> best_choice(const std::vector<std::vector<Way>>& rows, std::vector<int> supply);

}  // namespace tenth
