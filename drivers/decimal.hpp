#pragma once

#include <string>

namespace tenth::drivers {

/// Whole digits with the point set `places` from the right: one digit or more before it, no leading zeros otherwise,
/// a minus where negative (zero is not): decimal(true, "000123", 4) is "-0.0123".
std::string decimal(bool negative, std::string digits, std::size_t places);

}  // namespace tenth::drivers
