#pragma once

#include "drivers/catalog.hpp"

namespace tenth::drivers {

/// Frames of characters with one decimal number, found by the profile's pattern (format: `drivers/line/README.md`):
/// sent at a press, on their own, typed as by a keyboard, or as the answer to a question.
std::unique_ptr<Decoder> make_line(const Profile& profile, std::optional<Unit> unit, Wire wire);

}  // namespace tenth::drivers
