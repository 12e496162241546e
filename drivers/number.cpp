#include "drivers/number.hpp"

#include <boost/multiprecision/cpp_int.hpp>

#include "rules/decimal.hpp"

namespace tenth::drivers {

namespace {

using Integer = boost::multiprecision::cpp_int;

constexpr int kMostPower = 400;  // of ten: no frame has room for more digits

std::int64_t unit_pm(Unit unit) {
  return unit == Unit::in ? kInch.pm() : Length::from_mm(1).pm();
}

}  // namespace

tl::expected<Length, Wrong> exact_value(std::string_view number, Unit unit, const ValueForm& form) {
  const auto parsed = parse_decimal(number);
  if (!parsed) return bad_frame("that is no decimal number");
  if (parsed->digits.empty()) return Length();
  if (std::abs(parsed->exponent) > kMostPower) return bad_frame("the number is beyond all measure");
  const Integer ten = boost::multiprecision::pow(Integer(10), static_cast<unsigned>(std::abs(parsed->exponent)));
  Integer above = Integer(parsed->digits) * unit_pm(unit) * form.scale.numerator, below = form.scale.denominator;
  (parsed->exponent < 0 ? below : above) *= ten;
  if (above % below != 0) return bad_frame("the value is finer than a picometre");
  const Integer whole = above / below;
  if (whole > kLongest.pm()) return bad_frame("the value is beyond 100 m");
  const auto value = Length::from_pm(whole.convert_to<std::int64_t>());
  return parsed->negative != form.negate ? -value : value;
}

namespace {

/// "1e-4" for a number with four decimals: one in its last place.
std::string one_in_the_last_place(std::string_view number) {
  const std::size_t power = number.find_first_of("eE"), digits = std::min(power, number.size());
  const std::size_t point = number.find_first_of(".,");
  int exponent = point == std::string_view::npos ? 0 : -static_cast<int>(digits - point - 1);
  if (power != std::string_view::npos) exponent += std::stoi(std::string(number.substr(power + 1)));
  return "1e" + std::to_string(exponent);
}

Length step_of(std::string_view number, Unit unit, ValueForm form) {
  form.negate = false;
  return exact_value(one_in_the_last_place(number), unit, form).value_or(Length::from_pm(1));
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
