#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "schema/json/json.hpp"

namespace tenth {
namespace {

/// 1 pm is 1e-9 mm; RFC 8785 writes what is below 1e-6 that way, and so shorter than `exact_mm`.
constexpr std::int64_t kSmallestInPlainDigits = 1'000;

TEST(LengthInJson, PrintsTheExactDecimal) {
  EXPECT_EQ(canonical(mm(Length::from_pm(83'010'400'000))), "83.0104");
  EXPECT_EQ(canonical(mm(Length::from_pm(-25'400))), "-0.0000254");
  EXPECT_EQ(canonical(mm(Length())), "0");
  EXPECT_EQ(canonical(mm(kLongest)), "100000");
  EXPECT_EQ(canonical(mm(kLongest - Length::from_pm(1))), "99999.999999999");
  EXPECT_EQ(canonical(mm(Length::from_pm(1))), "1e-9");
  EXPECT_EQ(canonical(pm(Length::from_pm(-83'010'400'000))), "-83010400000");
}

TEST(LengthInJson, IsNullWhereThereIsNone) {
  EXPECT_EQ(canonical(mm(std::optional<Length>())), "null");
  EXPECT_EQ(canonical(pm(std::optional<Length>())), "null");
  EXPECT_EQ(canonical(mm(std::optional(kInch))), "25.4");
  EXPECT_EQ(canonical(pm(std::optional(kInch))), "25400000000");
  EXPECT_EQ(canonical(or_null(std::optional<int>())), "null");
}

void expect_exact(std::int64_t pm) {
  const Length length = Length::from_pm(pm);
  const std::string text = canonical(mm(length));
  if (length.magnitude().pm() >= kSmallestInPlainDigits || pm == 0) RC_ASSERT(text == exact_mm(length));
  RC_ASSERT(length_from_mm(mm(length)) == length);
  const auto read = parse_json(text, 64);
  RC_ASSERT(read.has_value());
  RC_ASSERT(length_from_mm(*read) == length);
}

RC_GTEST_PROP(LengthInJson, PrintsWhatRulesPrintAndComesBack, ()) {
  // Lengths of every magnitude up to 100 m, not only the largest.
  const auto digits = *rc::gen::inRange(0, 15);
  std::int64_t most = 1;
  for (int i = 0; i < digits; ++i) most *= 10;
  expect_exact(*rc::gen::inRange<std::int64_t>(-most, most + 1));
}

TEST(LengthInJson, PrintsEveryPicometreNearTheEdges) {
  for (const std::int64_t edge : {std::int64_t{0}, kInch.pm(), kLongest.pm() - 2'000, -kLongest.pm() + 2'000}) {
    for (std::int64_t pm = edge - 2'000; pm <= edge + 2'000; ++pm) {
      const Length length = Length::from_pm(pm);
      const std::string text = canonical(mm(length));
      if (length.magnitude().pm() >= kSmallestInPlainDigits || pm == 0) {
        ASSERT_EQ(text, exact_mm(length));
      }
      ASSERT_EQ(length_from_mm(*parse_json(text, 64)), length) << text;
    }
  }
}

}  // namespace
}  // namespace tenth
