#pragma once

#include "drivers/catalog.hpp"

namespace tenth::drivers {

/// 13 decimal digits, each as one hexadecimal character (format: `drivers/bcd13/README.md`).
std::unique_ptr<Decoder> make_bcd13(const Profile& profile, std::optional<Unit> unit, Wire wire);

}  // namespace tenth::drivers
