// Lengths as long as 64 bits can be: nothing overflows, and what does not fit stops at the end.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <boost/multiprecision/cpp_int.hpp>
#include <limits>

#include "rules/plausible.hpp"
#include "rules/uncertainty.hpp"
#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using Exact = boost::multiprecision::int512_t;
using Ends = std::numeric_limits<std::int64_t>;
constexpr Length kLeast = Length::from_pm(Ends::min()), kMost = Length::from_pm(Ends::max());

/// Any length, often one at an end or at 300 m, where a forged ledger ends.
Length any_length() {
  const std::int64_t far = (kLongest * 3).pm();
  const std::int64_t base = *rc::gen::element<std::int64_t>(0, far, -far, Ends::max(), Ends::min());
  const std::int64_t any = *rc::gen::arbitrary<std::int64_t>();
  return *rc::gen::arbitrary<bool>() ? Length::from_pm(any) : Length::from_pm(base) + Length::from_pm(any % 1000);
}

Exact exact(Length length) {
  return length.pm();
}

Length cut_off(const Exact& pm) {
  if (pm > Ends::max()) return kMost;
  return pm < Ends::min() ? kLeast : Length::from_pm(static_cast<std::int64_t>(pm));
}

/// dividend / divisor, halves away from zero.
Exact rounded(const Exact& dividend, const Exact& divisor) {
  const Exact doubled = 2 * abs(dividend) + divisor;
  const Exact quotient = doubled / (2 * divisor);
  return dividend < 0 ? Exact(-quotient) : quotient;
}

RC_GTEST_PROP(Edges, ArithmeticIsExactOrStopsAtTheEnd, ()) {
  const Length a = any_length(), b = any_length();
  const auto times = *rc::gen::arbitrary<std::int64_t>();
  RC_ASSERT(a + b == cut_off(exact(a) + exact(b)));
  RC_ASSERT(a - b == cut_off(exact(a) - exact(b)));
  RC_ASSERT(a * times == cut_off(exact(a) * times));
  RC_ASSERT(-a == cut_off(-exact(a)));
  RC_ASSERT(a.magnitude() == cut_off(abs(exact(a))));
}

TEST(Edges, UnitsStopAtTheEnd) {
  EXPECT_EQ(Length::from_mm(Ends::max()), kMost);
  EXPECT_EQ(Length::from_um(Ends::min()), kLeast);
  EXPECT_EQ(Length::from_mm(9'223'372'036).pm(), 9'223'372'036'000'000'000);
}

RC_GTEST_PROP(Edges, AMeanIsExact, ()) {
  std::vector<Length> lengths;
  Exact sum = 0;
  for (int count = *rc::gen::inRange(1, 50); count > 0; --count) {
    lengths.push_back(any_length());
    sum += exact(lengths.back());
  }
  RC_ASSERT(exact(mean(lengths)) == rounded(sum, lengths.size()));
}

TEST(Edges, AMeanOfAsManyPlacesAsASpecMayHaveIsExact) {
  const std::vector<Length> lengths(100'000, kLongest * 3);
  EXPECT_EQ(mean(lengths), kLongest * 3);
}

TEST(Edges, TheEndsCanBePrinted) {
  EXPECT_EQ(exact_mm(kLeast), "-9223372036.854775808");
  EXPECT_EQ(exact_mm(kMost), "9223372036.854775807");
  EXPECT_EQ(fixed(kLeast, Unit::mm, 3), "-9223372036.855");
  EXPECT_EQ(fixed(kMost, Unit::in, 4), "363124883.3407");  // 9223372036.854775807 / 25.4
}

/// The digits of a printed number as a whole number, without its point.
Exact whole(const std::string& printed) {
  Exact digits = 0;
  for (const char c : printed)
    if (c >= '0' && c <= '9') digits = digits * 10 + (c - '0');
  return printed.starts_with('-') ? Exact(-digits) : digits;
}

RC_GTEST_PROP(Edges, WhatIsPrintedIsTheLengthToHalfItsLastPlace, ()) {
  const Length length = any_length();
  const int places = *rc::gen::inRange(0, 9);
  Exact scaled = exact(length);
  for (int place = 0; place < places; ++place) scaled *= 10;
  RC_ASSERT(whole(fixed(length, Unit::mm, places)) == rounded(scaled, 1'000'000'000));
  RC_ASSERT(whole(fixed(length, Unit::in, places)) == rounded(scaled, kInch.pm()));
}

RC_GTEST_PROP(Edges, ARootOfSquaresIsRoundedUpExactly, ()) {
  const Length a = any_length(), b = any_length(), root = root_sum_of_squares(a, b);
  const auto square = [](const Exact& x) { return Exact(x * x); };
  const Exact sum = square(exact(a.magnitude())) + square(exact(b.magnitude()));
  RC_ASSERT(root == kMost || square(exact(root)) >= sum);
  RC_ASSERT(root == Length() || square(exact(root) - 1) < sum);
}

RC_GTEST_PROP(Edges, TheSizeAt20CIsExact, ()) {
  const Length size = any_length();
  const auto expansion = [] {
    return *rc::gen::element(*rc::gen::inRange<std::int64_t>(0, 1'000'000'001), std::int64_t{1'000'000'000});
  };
  const auto warmth = [] {
    return parse_temperature(*rc::gen::element<std::string>("-50", "150", "20", "302F")).value();
  };
  const Expansion part{expansion()}, gauge{expansion()};
  const Warmth part_at = warmth(), gauge_at = warmth();
  const Exact one = 9'000'000'000'000'000'000;
  const Exact grown = Exact(part.per_k_e12) * part_at.ninths_uk - Exact(gauge.per_k_e12) * gauge_at.ninths_uk;
  RC_ASSERT(at_20c(size, part, part_at, gauge, gauge_at) == cut_off(rounded(exact(size) * (one - grown), one)));
}

RC_GTEST_PROP(Edges, AVerdictIsThatOfExactLengths, ()) {
  const Length figure = any_length(), limit = any_length(), u = any_length().magnitude();
  const bool fits =
      cut_off(exact(figure) - exact(limit)) == figure - limit && figure - limit != kLeast && figure - limit != kMost;
  RC_PRE(fits);
  const Exact beyond = exact(figure) - exact(limit);
  const Verdict upper = beyond > exact(u) ? Verdict::out : beyond <= -exact(u) ? Verdict::in : Verdict::doubtful;
  const Verdict lower = -beyond > exact(u) ? Verdict::out : -beyond <= -exact(u) ? Verdict::in : Verdict::doubtful;
  RC_ASSERT(zone(figure, limit, Side::upper, u) == upper);
  RC_ASSERT(zone(figure, limit, Side::lower, u) == lower);
}

RC_GTEST_PROP(Edges, AProbabilityIsOneAlways, ()) {
  const Length one = any_length(), other = any_length();
  const double p = conforming(any_length(), {std::min(one, other), std::max(one, other)}, any_length().magnitude());
  RC_ASSERT(p >= 0 && p <= 1);
}

/// The rules of thumb of `doubts_of_size` for a feature of kind outside without a window, worked with wider numbers.
RC_GTEST_PROP(Edges, DoubtsAreThoseOfExactLengths, ()) {
  const auto within_300_m = [] { return std::clamp(any_length(), kLongest * -3, kLongest * 3); };
  Feature feature;
  feature.kind = Kind::outside;
  feature.limits = {within_300_m(), within_300_m()};
  if (*feature.limits.upper < *feature.limits.lower) std::swap(feature.limits.lower, feature.limits.upper);
  const Length size = within_300_m(), counting = within_300_m();
  const Exact lower = exact(*feature.limits.lower), upper = exact(*feature.limits.upper), x = exact(size);
  const auto near = [&](const Exact& by, const Exact& of) {
    return (lower - 100'000'000) * of <= x * by && x * by <= (upper + 100'000'000) * of;
  };
  const auto doubts = doubts_of_size(feature, size, counting);
  const auto told = [&](Doubt doubt) { return std::ranges::find(doubts, doubt) != doubts.end(); };
  const bool range = x < lower - 1'000'000'000 || x > upper + 1'000'000'000;
  RC_ASSERT(told(Doubt::range) == range);
  RC_ASSERT(told(Doubt::tenfold) == (range && (near(10, 1) || near(1, 10))));
  RC_ASSERT(told(Doubt::inch_mm) == (range && (near(254, 10) || near(10, 254))));
  RC_ASSERT(told(Doubt::repeat) == (abs(exact(counting) - x) > 12'700'000));
}

}  // namespace
}  // namespace tenth
