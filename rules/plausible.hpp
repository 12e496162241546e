#pragma once

#include <optional>
#include <vector>

#include "rules/reading.hpp"
#include "rules/spec.hpp"

namespace tenth {

/// A gauge that measures insides fits features of kind inside, and so on; `any` fits every size, none fits a check.
bool fits_kind(Measures measures, Kind kind);

/// What speaks against a size at a place of this feature: range, tenfold, inch_mm, turn, repeat, in that order.
/// `counting` is the size that counts at the place in the same stage, if any. Common practice of the trade: one thimble
/// turn of a micrometer is 0.5 mm or 0.025 in; a slip of the decimal point or of the unit leaves the limits by far.
std::vector<Doubt> doubts_of_size(const Feature& feature, Length size, std::optional<Length> counting);

}  // namespace tenth
