#pragma once

#include "rules/remedies/relaxation.hpp"

namespace tenth::choice {

/// Excesses and bounds are counted this fine, so that rounded prices lose little.
inline constexpr std::int64_t kFine = 1024;

/// Fills each candidate's excess and returns a lower bound, times kFine, of what a choice can come to for an aim when
/// it comes to no more than `best` for the aims before: the excesses of a choice lie above it together. Exact whole
/// numbers, and so proven, whatever the prices. Nothing fits, and the prices prove it: INT64_MAX.
std::int64_t bound(Rows& rows, std::span<const int> supply, std::size_t aim, const Cost& best, const Relaxed& relaxed);

}  // namespace tenth::choice
