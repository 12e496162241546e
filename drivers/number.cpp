#include "drivers/number.hpp"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>

#include "rules/decimal.hpp"

namespace tenth::drivers {

namespace {

using Integer = boost::multiprecision::cpp_int;

constexpr int kMostPower = 400;  // of ten: no frame has room for more digits

/// Picometres, without the sign.
struct Fraction {
  Integer above, below;
};

Fraction scaled_to_pm(const std::string& digits, int exponent, Unit unit, const Factor& scale) {
  const Integer ten = boost::multiprecision::pow(Integer(10), static_cast<unsigned>(std::abs(exponent)));
  Fraction pm{Integer(digits) * length_of(unit).pm() * scale.numerator, scale.denominator};
  (exponent < 0 ? pm.below : pm.above) *= ten;
  return pm;
}

}  // namespace

tl::expected<Length, Wrong> exact_value(std::string_view number, Unit unit, const ValueForm& form) {
  const auto parsed = parse_decimal(number);
  if (!parsed) return bad_frame("that is no decimal number");
  if (parsed->digits.empty()) return Length();
  if (std::abs(parsed->exponent) > kMostPower) return bad_frame("the number is beyond all measure");
  const auto [above, below] = scaled_to_pm(parsed->digits, parsed->exponent, unit, form.scale);
  if (above % below != 0) return bad_frame("the value is finer than a picometre");
  const Integer whole = above / below;
  if (whole > kLongest.pm()) return bad_frame("the value is beyond 100 m");
  const auto value = Length::from_pm(whole.convert_to<std::int64_t>());
  return parsed->negative != form.negate ? -value : value;
}

int last_place(std::string_view number) {
  const std::size_t power = number.find_first_of("eE"), digits = std::min(power, number.size());
  const std::size_t point = number.find_first_of(".,");
  const int exponent = point == std::string_view::npos ? 0 : -static_cast<int>(digits - point - 1);
  return power == std::string_view::npos ? exponent : exponent + std::stoi(std::string(number.substr(power + 1)));
}

namespace {

/// To the nearest picometre: a scale such as 1/3 has whole values, but no whole step.
Length step_of(std::string_view number, Unit unit, const ValueForm& form) {
  const auto [above, below] = scaled_to_pm("1", last_place(number), unit, form.scale);
  const Integer pm = std::clamp<Integer>((2 * above + below) / (2 * below), 1, kLongest.pm());
  const auto step = Length::from_pm(pm.convert_to<std::int64_t>());
  return form.negate ? -step : step;
}

}  // namespace

Parsed measured(const Profile& profile, std::string text, std::string_view number, Unit unit, bool unit_named) {
  const auto value = exact_value(number, unit, profile.value);
  if (!value) return tl::unexpected(value.error());
  const bool below = profile.range.lower && *value < *profile.range.lower;
  const bool above = profile.range.upper && *value > *profile.range.upper;
  if (below || above)
    return tl::unexpected(Wrong{FaultReason::out_of_range, exact_mm(*value) + " mm is outside the gauge's range"});
  return Measurement{{}, std::move(text), *value, unit, unit_named, {}, step_of(number, unit, profile.value)};
}

}  // namespace tenth::drivers
