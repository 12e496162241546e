#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "drivers/frame_decoder.hpp"

namespace tenth::drivers {

/// Number × scale in `unit`, exactly; negated where the profile says so. No number, finer than a picometre or beyond
/// 100 m: `bad_frame`.
tl::expected<Length, Wrong> exact_value(std::string_view number, Unit unit, const ValueForm& form);

/// The power of ten of the last place of a decimal number: -4 of "83.0104", -3 of "8.30104E+2".
int last_place(std::string_view number);

/// What all formats have in common once the number is known: scale, sign and range. `unit_named`: by the frame.
Parsed measured(const Profile& profile, std::string text, std::string_view number, Unit unit, bool unit_named);

}  // namespace tenth::drivers
