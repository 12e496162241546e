#include "schema/json/local_day.hpp"

#include <chrono>
#include <ctime>

#include "schema/json/time.hpp"

namespace tenth {
namespace {

constexpr std::int64_t kSecond_us = 1'000'000;
constexpr std::size_t kDayLetters = 10;

std::int64_t whole_seconds(std::int64_t wall_us) {
  using namespace std::chrono;
  return floor<seconds>(microseconds(wall_us)).count();
}

}  // namespace

std::string day_at(std::int64_t wall_us, std::int64_t east_s) {
  return rfc3339(wall_us + east_s * kSecond_us).substr(0, kDayLetters);
}

std::string local_day(std::int64_t wall_us) {
  const std::time_t at = whole_seconds(wall_us);
  std::tm here{};
  tzset();  // localtime_r need not
  localtime_r(&at, &here);
  return day_at(wall_us, here.tm_gmtoff);
}

bool is_day(const std::string& text) {
  return text.size() == kDayLetters && text.front() != '0' && wall_us_from(text + "T00:00:00Z").has_value();
}

std::optional<std::int64_t> day_begins_us(const std::string& day) {
  if (!is_day(day)) return std::nullopt;
  std::tm here{};
  here.tm_year = std::stoi(day.substr(0, 4)) - 1900;
  here.tm_mon = std::stoi(day.substr(5, 2)) - 1;
  here.tm_mday = std::stoi(day.substr(8, 2));
  here.tm_isdst = -1;  // as it was on that day
  return std::int64_t{std::mktime(&here)} * kSecond_us;
}

}  // namespace tenth
