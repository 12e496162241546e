#pragma once

#include <cstdint>
#include <vector>

#include "rules/result.hpp"

namespace tenth::statistics {

/// One reading that a study asks for; each counts from 1. In a study of masters `part` is the master.
struct StudyPlace {
  int part = 0, by = 0, trial = 0;
  friend auto operator<=>(const StudyPlace&, const StudyPlace&) = default;
};

/// The places of a study in the order in which they are to be measured, the same everywhere for the same seed. Trial by
/// trial; in each the operators in random order, each with all parts in random order, so that nobody remembers the last
/// figure of a part and the gauge changes hands seldom (common practice).
/// Random: numbers from SplitMix64 begun with `seed`, modulo what is left, shuffled from the back (Fisher and Yates).
/// Refused (`study_size`): a count below 1, or more than 10 000 places.
Result<std::vector<StudyPlace>> study_plan(int parts, int operators, int trials, std::uint64_t seed);

}  // namespace tenth::statistics
