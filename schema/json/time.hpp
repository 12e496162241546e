#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace tenth {

/// Microseconds since 1970 UTC as RFC 3339 with six places: "2026-03-01T08:15:30.123456Z".
std::string rfc3339(std::int64_t wall_us);

/// The reverse; any number of places, `Z` or an offset; empty where the text is no such time.
std::optional<std::int64_t> wall_us_from(std::string_view text);

}  // namespace tenth
