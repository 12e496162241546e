#pragma once

#include "rules/remedies/relaxation.hpp"

namespace tenth::choice {

/// The best complete choice found so far.
struct Best {
  std::optional<Cost> cost;
  std::vector<std::size_t> positions;  ///< by row
};

/// Whether the supplies still hold what a way takes, and takes it.
bool to_be_had(const Way& way, std::span<const int> left);
void take(const Way& way, std::vector<int>& left);

/// Finds the best choice for one aim, given the best for the aims before, and puts it into `best`: branch and bound on
/// the linear relaxation (common practice). Leaves in `rows` those that may be part of a choice as good. False: too
/// much work, and something better may have been missed.
bool improve(Rows& rows, std::span<const int> supply, std::size_t aim, Best& best);

}  // namespace tenth::choice
