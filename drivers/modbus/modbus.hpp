#pragma once

#include "drivers/catalog.hpp"

namespace tenth::drivers {

/// One register (or two) of Modbus, asked for again and again: RTU on a serial line, TCP on a network
/// (format: `drivers/modbus/README.md`).
std::unique_ptr<Decoder> make_modbus(const Profile& profile, std::optional<Unit> unit, Wire wire);

}  // namespace tenth::drivers
