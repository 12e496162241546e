#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace tenth {

/// The day of an instant where the clock is `east_s` seconds ahead of UTC, as "2026-03-01": days compare as texts do.
std::string day_at(std::int64_t wall_us, std::int64_t east_s);

/// The same where this machine is (`TZ`, else its own zone), by the rules that held then.
std::string local_day(std::int64_t wall_us);

/// True for a day of the calendar as `day_at` writes it, from year 1000 on.
bool is_day(const std::string& text);

/// The first instant of such a day where this machine is; empty where the text is none.
std::optional<std::int64_t> day_begins_us(const std::string& day);

}  // namespace tenth
