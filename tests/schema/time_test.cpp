#include "schema/json/time.hpp"

#include <gtest/gtest.h>

namespace tenth {
namespace {

TEST(Time, IsRfc3339WithMicroseconds) {
  EXPECT_EQ(rfc3339(0), "1970-01-01T00:00:00.000000Z");
  EXPECT_EQ(rfc3339(1'800'000'000'123'456),
            "2027-01-15T08:00:00.123456Z");  // 1 800 000 000 s: `date -u -d @1800000000`
  EXPECT_EQ(rfc3339(951'782'400'000'000), "2000-02-29T00:00:00.000000Z");
  EXPECT_EQ(rfc3339(-1), "1969-12-31T23:59:59.999999Z");
}

TEST(Time, ReadsWhatItWrites) {
  for (const std::int64_t us :
       {std::int64_t{0}, std::int64_t{-1}, std::int64_t{1'800'000'000'123'456}, std::int64_t{4'102'444'799'999'999}})
    EXPECT_EQ(wall_us_from(rfc3339(us)), us);
}

TEST(Time, ReadsOffsetsAndAnyNumberOfPlaces) {
  EXPECT_EQ(wall_us_from("1970-01-01T01:00:00+01:00"), 0);
  EXPECT_EQ(wall_us_from("1969-12-31t19:30:00.5-04:30"), 500'000);
  EXPECT_EQ(wall_us_from("1970-01-01 00:00:00.1234567Z"), 123'456);
}

TEST(Time, TakesTheEdgesOfTheDay) {
  EXPECT_EQ(wall_us_from("1970-01-01T23:59:59Z"), 86'399'000'000);
  EXPECT_EQ(wall_us_from("1969-12-31T23:59:60Z"), 0) << "a leap second is the next midnight";
  EXPECT_EQ(wall_us_from("1970-01-02T00:00:00+23:59"), 60'000'000);
}

TEST(Time, RefusesWhatIsNoTime) {
  for (const char* text : {"",
                           "now",
                           "2026-02-30T00:00:00Z",
                           "2026-01-01",
                           "2026-01-01T24:00:00Z",
                           "2026-01-01T00:00:00",
                           "2026-01-01T00:00:00.Z",
                           "2026-01-01T00:00:00Zx",
                           "-026-01-01T00:00:00Z",
                           "2026-01-01T00:00:00+1:00",
                           "2026-13-01T00:00:00Z",
                           "2026-00-01T00:00:00Z",
                           "2026-01-01T00:60:00Z",
                           "2026-01-01T00:00:61Z",
                           "2026-01-01T00:00:00+24:00",
                           "2026-01-01T00:00:00-00:60",
                           "2026/01/01T00:00:00Z",
                           "2026-01-01_00:00:00Z",
                           "2026-01-01T00.00:00Z",
                           "2026-01-01T-1:00:00Z"})
    EXPECT_FALSE(wall_us_from(text)) << text;
}

}  // namespace
}  // namespace tenth
