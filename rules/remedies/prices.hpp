#pragma once

#include <span>

#include "rules/remedies/choice.hpp"

namespace tenth::choice {

/// A way still in the running: whose it is, and by aim how far it lies above the bound of that aim.
struct Candidate {
  Way way;
  std::size_t row = 0, position = 0;  ///< in the caller's rows
  std::array<std::int64_t, 3> excess = {};
};
using Rows = std::vector<std::vector<Candidate>>;

/// Excesses and bounds are counted this fine, so that rounded prices lose little.
inline constexpr std::int64_t kFine = 1024;

/// Whether the supplies still hold what a way takes.
bool to_be_had(const Way& way, std::span<const int> left);

/// The best complete choice found so far.
struct Best {
  std::optional<Cost> cost;
  std::vector<std::size_t> positions;  ///< by row
};

/// What a unit of each supply costs a way that takes it on the upper or the lower side; none negative. Contained in the
/// excesses.
using SidePrices = std::array<std::vector<std::int64_t>, 2>;

/// Prices the supplies for one aim (Lagrangian relaxation, subgradient steps), given that at most `may_fail` rows fail
/// the first aim. Fills each candidate's excess for this aim and the prices behind it, and returns a proven lower bound
/// of the aim, times kFine. Better complete choices that it comes across go into `best`.
std::int64_t price(Rows& rows, std::span<const int> supply, std::size_t aim, std::int64_t may_fail, Best& best,
                   SidePrices& prices);

/// Raises the bound of an aim as far as one side's prices can, then the other's: with the other prices held, the best
/// prices of a side are those of an assignment. Changes excesses and prices, returns how much was raised: never less
/// than nothing. Empty: nothing fits.
std::optional<std::int64_t> lift(Rows& rows, std::span<const int> left, std::size_t aim, SidePrices& prices);

}  // namespace tenth::choice
