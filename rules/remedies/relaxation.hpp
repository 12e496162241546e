#pragma once

#include <array>
#include <span>

#include "rules/remedies/choice.hpp"

namespace tenth::choice {

/// A way still in the running: whose it is, and how far it lies above the bound of the aim looked at.
struct Candidate {
  Way way;
  std::size_t row = 0, position = 0;  ///< in the caller's rows
  std::int64_t excess = 0;
};
using Rows = std::vector<std::vector<Candidate>>;

/// What a row that stays empty costs in the prices that show that not all can be filled.
inline constexpr std::int64_t kEmptyRow = 1'000'000'000;

/// The best choice for one aim where a row may be filled by fractions of its ways, which together take no more than
/// there is and cost no more of the earlier aims than the best known.
struct Relaxed {
  bool fits = true;                        ///< false: not even fractions fill every row, and the prices show it
  std::vector<double> prices;              ///< of a unit of each supply; none negative
  std::vector<double> budgets;             ///< of a unit of each earlier aim; none negative
  std::vector<std::vector<double>> share;  ///< of each way, row by row
  std::size_t work = 0;                    ///< numbers changed
};

/// By the revised simplex method (common practice) in floating point. Its prices need not be exact: whatever they are,
/// `price` makes a bound of them that holds.
Relaxed relaxed(const Rows& rows, std::span<const int> supply, std::size_t aim, const Cost& best);

}  // namespace tenth::choice
