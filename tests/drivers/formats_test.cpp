#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cstdio>

#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

/// Encoders of the tests' own, from the format descriptions.
std::string hex(const char* format, unsigned value) {
  char text[16];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

/// What a whole frame gives; empty where it is a fault.
std::optional<Measurement> read_of(const std::string& profile, std::string_view frame,
                                   std::optional<Unit> unit = std::nullopt) {
  const Event event = event_of(profile, frame, unit);
  const auto* const read = std::get_if<Measurement>(&event);
  return read ? std::optional(*read) : std::nullopt;
}

std::string why(std::string_view frame, std::optional<Unit> unit) {
  return std::get<Fault>(event_of("line", frame, unit)).text;
}

std::int64_t power_of_ten(int exponent) {
  std::int64_t power = 1;
  while (exponent-- > 0) power *= 10;
  return power;
}

TEST(Line, ReadsEveryTenthOfAnInchExactly) {
  EXPECT_TRUE(rc::check([] {
    const int tenths = *rc::gen::inRange(-99'999'999, 100'000'000);
    char text[16];
    std::snprintf(text, sizeof text, "%s%d.%04d", tenths < 0 ? "-" : "+", std::abs(tenths) / 10'000,
                  std::abs(tenths) % 10'000);
    const auto read = read_of("line", text, Unit::in);
    if (std::abs(tenths) / 10'000 > 3937) {
      RC_ASSERT(!read);  // beyond 100 m
    } else {
      RC_ASSERT(read->value == Length::from_pm(tenths * 2'540'000LL));
      RC_ASSERT(read->text == text);
    }
  }));
}

TEST(Line, TakesTheUnitOfTheFrameBeforeThatOfTheGauge) {
  EXPECT_EQ(read_of("line", "1mm", Unit::in)->value, Length::from_mm(1));
  EXPECT_EQ(read_of("line", "1in", std::nullopt)->value, kInch);
  EXPECT_EQ(read_of("line", "1", Unit::in)->value, kInch);
  EXPECT_FALSE(read_of("line", "1", Unit::in)->unit_in_frame);
}

TEST(Line, IsNoLengthWithoutAnyUnit) {
  EXPECT_EQ(why("1", std::nullopt), "the frame names no unit and the gauge has none");
}

TEST(Line, SaysWhyAFrameIsBad) {
  EXPECT_NE(why("1e-10", Unit::mm).find("picometre"), std::string::npos);
  EXPECT_NE(why("9e9", Unit::mm).find("100 m"), std::string::npos);
  EXPECT_NE(why("nan", Unit::mm).find("pattern"), std::string::npos);
}

TEST(Bcd13, ReadsEveryNumberOfEveryFrameExactly) {
  EXPECT_TRUE(rc::check([] {
    const auto number = *rc::gen::inRange(0U, 1'000'000U);
    const auto places = *rc::gen::inRange(0, 6);
    const auto minus = *rc::gen::arbitrary<bool>();
    const auto inches = *rc::gen::arbitrary<bool>();
    const auto frame =
        std::string("FFFF") + (minus ? "8" : "0") + hex("%06u", number) + std::to_string(places) + (inches ? "1" : "0");
    const std::int64_t unit_pm = inches ? 25'400'000'000 : 1'000'000'000;
    const std::int64_t pm = number * (unit_pm / power_of_ten(places)) * (minus ? -1 : 1);
    const auto read = read_of("bcd13", frame);
    RC_ASSERT(bool(read) == (std::abs(pm) <= kLongest.pm()));
    if (!read) return;
    RC_ASSERT(read->value.pm() == pm);
    RC_ASSERT(read->text.starts_with('-') == (pm < 0));
    RC_ASSERT(read->unit_in_frame && read->unit == (inches ? Unit::in : Unit::mm));
  }));
}

TEST(Bcd13, AChangedDigitIsAnotherNumberOrNone) {
  EXPECT_TRUE(rc::check([] {
    std::string frame = "FFFF001234530";
    const auto at = *rc::gen::inRange<std::size_t>(0, frame.size());
    frame[at] = *rc::gen::distinctFrom(rc::gen::elementOf(std::string("0123456789ABCDEF")), frame[at]);
    const auto read = read_of("bcd13", frame);
    const bool same = read && read->text == "12.345" && read->unit == Unit::mm;  // RC_ASSERT evaluates both sides of ||
    RC_ASSERT(!same);
  }));
}

TEST(Bin24, ReadsAll24BitsExactly) {
  EXPECT_TRUE(rc::check([] {
    const auto bits = *rc::gen::inRange(0U, 1U << 24);
    const auto read = read_of("bin24", hex("%06X", bits));
    const bool unused = (bits & 0x60'0000) != 0;
    RC_ASSERT(bool(read) == !unused);
    if (!read) return;
    const bool inches = (bits & 0x80'0000) != 0;
    const std::int64_t pm = (bits & 0x0F'FFFF) * (inches ? 12'700'000LL : 10'000'000LL);
    RC_ASSERT(read->value.pm() == ((bits & 0x10'0000) != 0 ? -pm : pm));
    RC_ASSERT(read->text.size() - read->text.find('.') - 1 == (inches ? 4U : 2U));
    RC_ASSERT(length_from_decimal(read->text, read->unit) == read->value);
  }));
}

TEST(Catalog, FindsProfilesByTheirWholeName) {
  for (const char* const name : {"line", "bcd13", "bin24", "query", "keys", "modbus", "pedal"})
    EXPECT_NE(find_shipped(name), nullptr) << name;
  EXPECT_EQ(find_shipped("Line"), nullptr);
  EXPECT_EQ(find_shipped(""), nullptr);
}

TEST(Catalog, EveryShippedProfileCanBeReadAndDecodes) {
  ASSERT_GE(shipped_profiles().size(), 15U);
  for (const ShippedProfile& each : shipped_profiles()) {
    const auto profile = parse_profile(each.text, std::string(each.name));
    ASSERT_TRUE(profile) << profile.error().message;
    EXPECT_FALSE(profile->title.empty()) << each.name;
    if (profile->speaks == Speaks::pedal) continue;
    EXPECT_NE(make_decoder(*profile, Unit::mm, Wire::serial), nullptr) << each.name;
  }
}

TEST(Catalog, OnlyFramesOfDigitsTellTheirUnitAndTheirBeginning) {
  for (const char* const name : {"line", "query", "keys"}) {
    EXPECT_FALSE(tells_unit(shipped(name))) << name;
    EXPECT_FALSE(whole_by_length(shipped(name))) << name;
  }
  for (const char* const name : {"bcd13", "bin24"}) {
    EXPECT_TRUE(tells_unit(shipped(name))) << name;
    EXPECT_TRUE(whole_by_length(shipped(name))) << name;
  }
}

TEST(Faults, HaveTheNamesOfTheDictionary) {
  EXPECT_EQ(name(FaultReason::bad_frame), "bad_frame");
  EXPECT_EQ(name(FaultReason::too_long), "too_long");
  EXPECT_EQ(name(FaultReason::cut_short), "cut_short");
  EXPECT_EQ(name(FaultReason::noise), "noise");
  EXPECT_EQ(name(FaultReason::parity), "parity");
}

}  // namespace
}  // namespace tenth::drivers
