#pragma once

#include <optional>
#include <string_view>

#include "rules/length.hpp"

namespace tenth {

/// The tables of ISO 286-1, for nominal sizes over 0 up to `kLargestNominal`.
/// How sure: IT5 to IT9 and f, g, k, m, p over 3 up to 250 mm agree with many public transcriptions
/// (tests/references/iso286.csv). All other cells are from memory; each lies at the standard's formula of 1988, also
/// from memory, to within its rounding, but for those that the tests name one by one.
inline constexpr Length kLargestNominal = Length::from_mm(3150);

/// The standard tolerance of a grade; IT01 is -1 and IT0 is 0. IT12 and coarser are ten times the one five grades
/// finer. None beyond IT18, and of IT01 and IT0 over 500 mm.
std::optional<Length> standard_tolerance(int grade, Length nominal);

/// How far the near limit of a shaft lies from the nominal size: below it for a to h, above it for k to zc; k is that
/// of grades 4 to 7. None where the standard gives none, of letters it does not have, of j (whose cells follow no
/// formula) and of cd, ef, fg over 10 mm (given by the later edition only).
std::optional<Length> shaft_deviation(std::string_view letters, Length nominal);

}  // namespace tenth
