#pragma once

#include <string>

#include "schema/export/paper/drawing.hpp"

namespace tenth::paper {

/// The text as a QR code (ISO/IEC 18004, error correction M) with the quiet zone of four modules that it asks for.
Drawing qr_code(const std::string& text);

}  // namespace tenth::paper
