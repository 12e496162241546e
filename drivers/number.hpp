#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "drivers/frame_decoder.hpp"

namespace tenth::drivers {

/// Number × scale in `unit`, exactly; negated where the profile says so. No number, finer than a picometre or beyond
/// 100 m: `bad_frame`.
tl::expected<Length, Wrong> exact_value(std::string_view number, Unit unit, const ValueForm& form);

/// What all formats have in common once the number is known: scale, sign and range. `unit_named`: by the frame.
Parsed measured(const Profile& profile, std::string text, std::string_view number, Unit unit, bool unit_named);

}  // namespace tenth::drivers
