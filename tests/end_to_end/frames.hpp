// Encoders of the three wire formats, written from the formats' description and from nothing else.
#pragma once

#include <string>
#include <string_view>

namespace acceptance {

enum class Unit { mm, inch };

// A decimal text line, ended by CR.
std::string line(std::string_view number);

// Thirteen hex digits and CR: FFFF, sign, six digits, decimals, unit. The number is a decimal text such as "-0.005".
std::string bcd13(std::string_view number, Unit unit = Unit::mm);

// Six hex digits and CR: steps of 0.01 mm or of 0.0005 in, the sign in bit 20, the unit in bit 23.
std::string bin24(int steps, Unit unit = Unit::mm);

}  // namespace acceptance
