#pragma once

#include <span>
#include <string>
#include <string_view>

#include "drivers/decoder.hpp"

namespace tenth {

/// Bytes as a recording writes them (tests/recordings/README.md): `\xHH`, and `\!HH` where the port marked a byte as
/// damaged; every other character stands for itself.
std::string wire_text(std::span<const drivers::Received> bytes);
std::string wire_text(std::string_view bytes);

}  // namespace tenth
