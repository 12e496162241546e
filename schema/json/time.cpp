#include "schema/json/time.hpp"

#include <array>
#include <charconv>
#include <chrono>
#include <cstdio>

namespace tenth {
namespace {

using namespace std::chrono;

/// Reads exactly `digits` digits at the front of `text` and removes them.
std::optional<int> take_number(std::string_view& text, std::size_t digits) {
  int value = 0;
  if (text.size() < digits) return std::nullopt;
  const auto [end, error] = std::from_chars(text.data(), text.data() + digits, value);
  if (error != std::errc{} || end != text.data() + digits || text[0] == '-') return std::nullopt;
  text.remove_prefix(digits);
  return value;
}

bool take(std::string_view& text, std::string_view any_of) {
  if (text.empty() || any_of.find(text.front()) == std::string_view::npos) return false;
  text.remove_prefix(1);
  return true;
}

/// The digits after the point as microseconds; finer ones are cut off.
std::optional<std::int64_t> take_fraction(std::string_view& text) {
  if (!take(text, ".")) return 0;
  std::int64_t us = 0;
  int digits = 0;
  for (; !text.empty() && text.front() >= '0' && text.front() <= '9'; text.remove_prefix(1), ++digits)
    if (digits < 6) us = us * 10 + (text.front() - '0');
  if (digits == 0) return std::nullopt;
  for (; digits < 6; ++digits) us *= 10;
  return us;
}

std::optional<minutes> take_offset(std::string_view& text) {
  if (take(text, "Zz")) return minutes(0);
  const bool west = !text.empty() && text.front() == '-';
  if (!take(text, "+-")) return std::nullopt;
  const auto hour = take_number(text, 2);
  if (!hour || !take(text, ":")) return std::nullopt;
  const auto minute = take_number(text, 2);
  if (!minute || *hour > 23 || *minute > 59) return std::nullopt;
  const minutes offset = hours(*hour) + minutes(*minute);
  return west ? -offset : offset;
}

}  // namespace

std::string rfc3339(std::int64_t wall_us) {
  const sys_time<microseconds> at{microseconds(wall_us)};
  const auto day = floor<days>(at);
  const year_month_day date(day);
  const hh_mm_ss time(at - day);
  std::array<char, 40> out{};
  std::snprintf(out.data(), out.size(), "%04d-%02u-%02uT%02d:%02d:%02d.%06dZ", int(date.year()), unsigned(date.month()),
                unsigned(date.day()), int(time.hours().count()), int(time.minutes().count()),
                int(time.seconds().count()), int(time.subseconds().count()));
  return out.data();
}

std::optional<std::int64_t> wall_us_from(std::string_view text) {
  const auto y = take_number(text, 4);
  if (!y || !take(text, "-")) return std::nullopt;
  const auto mon = take_number(text, 2);
  if (!mon || !take(text, "-")) return std::nullopt;
  const auto d = take_number(text, 2);
  if (!d || !take(text, "Tt ")) return std::nullopt;
  const auto h = take_number(text, 2);
  if (!h || !take(text, ":")) return std::nullopt;
  const auto min = take_number(text, 2);
  if (!min || !take(text, ":")) return std::nullopt;
  const auto s = take_number(text, 2);
  if (!s) return std::nullopt;
  const auto us = take_fraction(text);
  if (!us) return std::nullopt;
  const auto offset = take_offset(text);
  const year_month_day date{year{*y}, month{unsigned(*mon)}, day{unsigned(*d)}};
  if (!offset || !text.empty() || !date.ok() || *h > 23 || *min > 59 || *s > 60) return std::nullopt;
  const sys_time<microseconds> at = sys_days(date) + hours(*h) + minutes(*min) + seconds(*s) + microseconds(*us);
  return (at - *offset).time_since_epoch().count();
}

}  // namespace tenth
