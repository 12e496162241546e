#pragma once

#include <string>

#include "rules/result.hpp"

namespace tenth::drivers {

/// Sets an open port: raw, 9600 8N1 without flow control, damaged bytes marked (`Marks`), DTR left up on close. Nothing
/// is flushed. Read back and compared; refused (`settings`) where the port does otherwise, (`not_a_port`) where it is
/// no terminal line. A pseudo-terminal is asked for speed, bits and parity but may have its own.
Result<void> set_port(int descriptor, const std::string& path);

}  // namespace tenth::drivers
