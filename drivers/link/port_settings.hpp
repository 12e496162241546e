#pragma once

#include <string>

#include "rules/result.hpp"
#include "schema/profile/profile.hpp"

namespace tenth::drivers {

/// Sets an open port: raw, the profile's speed and frame, damaged bytes marked (`Marks`), DTR and RTS as the profile
/// says and left so on close. Nothing is flushed. Read back and compared; refused (`settings`) where the port does
/// otherwise,
/// (`not_a_port`) where it is no terminal line. A pseudo-terminal is asked for speed, bits and parity but may have its
/// own.
Result<void> set_port(int descriptor, const std::string& path, const LineSettings& line);

}  // namespace tenth::drivers
