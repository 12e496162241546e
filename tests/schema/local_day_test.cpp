#include "schema/json/local_day.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <optional>

#include "schema/json/time.hpp"

namespace tenth {
namespace {

/// The zone of this machine, as long as it lives.
struct Zone {
  explicit Zone(const char* name) { setenv("TZ", name, 1); }
  ~Zone() { unsetenv("TZ"); }
};

std::int64_t at(const char* text) {
  return wall_us_from(text).value();
}

TEST(LocalDay, IsWhatTheClockOnTheWallSays) {
  EXPECT_EQ(day_at(at("2026-03-01T23:59:59.999999Z"), 0), "2026-03-01");
  EXPECT_EQ(day_at(at("2026-03-01T23:59:59.999999Z"), 3600), "2026-03-02");
  EXPECT_EQ(day_at(at("2026-03-01T00:00:00Z"), -1), "2026-02-28");
  EXPECT_EQ(day_at(at("2027-12-31T12:00:00Z"), 12 * 3600), "2028-01-01");
  EXPECT_EQ(day_at(-1, 0), "1969-12-31");
}

TEST(LocalDay, FollowsTheZoneAndItsSummer) {
  const Zone berlin("CET-1CEST,M3.5.0,M10.5.0/3");  // POSIX form: an hour east, two in summer
  EXPECT_EQ(local_day(at("2026-01-31T22:59:59Z")), "2026-01-31");
  EXPECT_EQ(local_day(at("2026-01-31T23:00:00Z")), "2026-02-01");
  EXPECT_EQ(local_day(at("2026-07-31T22:00:00Z")), "2026-08-01");
  EXPECT_EQ(local_day(at("2026-07-31T21:59:59Z")), "2026-07-31");
  EXPECT_EQ(day_begins_us("2026-02-01"), at("2026-01-31T23:00:00Z"));
  EXPECT_EQ(day_begins_us("2026-08-01"), at("2026-07-31T22:00:00Z"));
  EXPECT_EQ(day_begins_us("2026-03-29"), at("2026-03-28T23:00:00Z"))
      << "the day of the change begins as the winter does";
  EXPECT_EQ(day_begins_us("2026-03-30"), at("2026-03-29T22:00:00Z"));
}

TEST(LocalDay, WestOfGreenwichTheDayBeginsLater) {
  const Zone west("TEST8");
  EXPECT_EQ(local_day(at("2026-03-01T07:59:59Z")), "2026-02-28");
  EXPECT_EQ(day_begins_us("2026-03-01"), at("2026-03-01T08:00:00Z"));
}

TEST(LocalDay, ADayBeginsOnThatDayEverywhere) {
  for (const char* name :
       {"UTC", "TEST12", "TEST-14", "CET-1CEST,M3.5.0,M10.5.0/3", "TEST3:30TEST2:30,M4.1.0/0,M10.1.0/0"}) {
    const Zone zone(name);
    for (const char* day :
         {"2026-01-01", "2026-03-29", "2026-04-05", "2026-10-04", "2026-10-25", "2028-02-29", "2037-12-31"}) {
      const std::int64_t begins = day_begins_us(day).value();
      EXPECT_EQ(local_day(begins), day) << name;
      EXPECT_LT(local_day(begins - 1), day) << name;
    }
  }
}

TEST(LocalDay, IsADayOfTheCalendarAndNothingElse) {
  for (const char* day : {"2026-03-01", "2028-02-29", "9999-12-31", "1000-01-01"}) EXPECT_TRUE(is_day(day)) << day;
  for (const char* text :
       {"", "2026-3-1", "2026-02-29", "2026-13-01", "2026-00-10", "2026-01-32", "0999-01-01", "20260301", "2026-03-01 ",
        "26-03-01", "2026/03/01", "2026-03-1x", "today", "2026-03-01T00:00:00Z"}) {
    EXPECT_FALSE(is_day(text)) << text;
    EXPECT_FALSE(day_begins_us(text)) << text;
  }
}

}  // namespace
}  // namespace tenth
