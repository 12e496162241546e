#pragma once

#include "drivers/catalog.hpp"

namespace tenth::drivers {

/// A 24-bit number as 6 hexadecimal characters (format: `drivers/bin24/README.md`).
std::unique_ptr<Decoder> make_bin24(const Profile& profile, std::optional<Unit> unit, Wire wire);

}  // namespace tenth::drivers
