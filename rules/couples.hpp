#pragma once

#include <vector>

#include "rules/engine.hpp"

namespace tenth {

/// The mating parts of a fit as they are now, one couple for each index of the inside part: as the spec pairs them,
/// unless `mate` said otherwise.
std::vector<Couple> couples_of(const Engine& engine, const Fit& fit);

/// These two go together from now on. The inside part keeps its seat (the k-th rod of a pin stays the k-th); whoever
/// had that seat of the outside part has no mate any more, until it is given one.
void mate(Engine& engine, const Fit& fit, int inside_index, int outside_index);

}  // namespace tenth
