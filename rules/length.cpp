#include "rules/length.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "rules/decimal.hpp"
#include "rules/nearest.hpp"

namespace tenth {

namespace {

/// What people write after a number, as factor × 10^power picometres.
struct Scale {
  std::string_view name;
  int factor, power;
  Unit unit;
};

constexpr std::array<Scale, 5> kScales = {{{"mm", 1, 9, Unit::mm},
                                           {"in", 254, 8, Unit::in},
                                           {"um", 1, 6, Unit::mm},
                                           {"thou", 254, 5, Unit::in},
                                           {"tenth", 254, 4, Unit::in}}};

/// What stands after the number in `text`; null: nothing.
const Scale* scale_after(std::string_view text) {
  const auto found = std::ranges::find_if(kScales, [&](const Scale& scale) { return text.ends_with(scale.name); });
  return found == kScales.end() ? nullptr : &*found;
}

const Scale& scale_of(Unit unit) {
  return kScales.at(unit == Unit::mm ? 0 : 1);
}

constexpr auto kHow = "write a number and a unit (mm, um, in, thou, tenth), such as 83.01 mm";

auto too_fine(std::string_view text) {
  return wrong_words("length", quoted(text) + " is finer than a picometre", "give fewer decimals");
}

auto too_long(std::string_view text) {
  return wrong_words("length", quoted(text) + " is beyond 100 m", "look at the decimal point and the unit");
}

/// `text` is what the number was read from, for messages.
Result<Length> to_length(const Decimal& number, const Scale& scale, std::string_view text) {
  // What is both a whole number of picometres and within 100 m has at most 15 digits between its outer zeros.
  constexpr int kMostDigits = 15;
  int power = number.exponent + scale.power;
  const int size = static_cast<int>(number.digits.size());
  if (size == 0) return Length();
  if (size > kMostDigits && size + power >= kMostDigits) return too_long(text);
  if (size > kMostDigits) return too_fine(text);
  std::int64_t pm = std::stoll(number.digits) * scale.factor;
  for (; power < 0; ++power) {
    if (pm % 10 != 0) return too_fine(text);
    pm /= 10;
  }
  for (; power > 0 && pm <= kLongest.pm(); --power) pm *= 10;
  if (pm > kLongest.pm()) return too_long(text);
  return Length::from_pm(number.negative ? -pm : pm);
}

/// "83,010" may be meant as 83.010 or as 83010: three digits after a comma, and more than a zero before it.
bool may_be_thousands(std::string_view number) {
  take_sign(number);
  const auto whole = take_digits(number);
  if (!number.starts_with(',') || whole.find_first_not_of('0') == std::string_view::npos) return false;
  number.remove_prefix(1);
  return take_digits(number).size() == 3;
}

std::string point_for_comma(std::string_view number) {
  std::string with_point(number);
  std::replace(with_point.begin(), with_point.end(), ',', '.');
  return with_point;
}

std::int64_t power_of_ten(int power) {
  std::int64_t value = 1;
  for (; power > 0; --power) value *= 10;
  return value;
}

/// `scaled` / 10^places, with all places.
std::string written(std::int64_t scaled, int places) {
  std::string digits = std::to_string(scaled);
  if (scaled < 0) digits.erase(0, 1);
  return decimal(scaled < 0, std::move(digits), static_cast<std::size_t>(places));
}

}  // namespace

std::int64_t divide_rounded(Wide dividend, std::int64_t divisor) {
  const Wide quotient = dividend / divisor, rest = dividend % divisor;
  if (rest >= divisor - rest) return narrowed(quotient + 1);
  if (-rest >= divisor + rest) return narrowed(quotient - 1);
  return narrowed(quotient);
}

Length mean(std::span<const Length> lengths) {
  Wide sum = 0;
  for (const Length length : lengths) sum += length.pm();
  return Length::from_pm(divide_rounded(sum, static_cast<std::int64_t>(lengths.size())));
}

Result<Length> length_from_decimal(std::string_view number, Unit unit) {
  const auto parsed = parse_decimal(number);
  if (!parsed) return wrong_words("length", quoted(number) + " is no decimal number", "write it like 83.01 or -0.0005");
  return to_length(*parsed, scale_of(unit), number);
}

Result<Length> parse_length(std::string_view text, std::optional<Unit> bare) {
  std::string_view number = text;
  const Scale* const scale = scale_after(text);
  if (scale != nullptr) {
    number.remove_suffix(scale->name.size());
    if (number.ends_with(' ')) number.remove_suffix(1);
  }
  const auto parsed = parse_decimal(number);
  if (!parsed) return wrong_words("length", quoted(text) + " is no length", kHow);
  if (may_be_thousands(number))
    return wrong_words("length", quoted(text) + " may be meant with a decimal comma or in thousands",
                       "write " + point_for_comma(number) + " if the comma is the decimal mark");
  if (scale != nullptr) return to_length(*parsed, *scale, text);
  if (!bare) return wrong_words("length", quoted(text) + " has no unit", kHow);
  return to_length(*parsed, scale_of(*bare), text);
}

Unit unit_typed(std::string_view text, std::optional<Unit> bare) {
  const Scale* const scale = scale_after(text);
  return scale == nullptr ? bare.value() : scale->unit;
}

Result<Unit> parse_unit(std::string_view text) {
  if (text == "mm") return Unit::mm;
  if (text == "in") return Unit::in;
  return wrong_words("unit", quoted(text) + " is no unit here", "write mm or in");
}

std::string_view name(Unit unit) {
  return unit == Unit::mm ? "mm" : "in";
}

std::string exact_mm(Length length) {
  std::string text = written(length.pm(), 9);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string fixed(Length length, Unit unit, int places) {
  const Scale& scale = scale_of(unit);
  places = std::min(places, scale.power);  // beyond that inches have no whole divisor
  return written(divide_rounded(length.pm(), scale.factor * power_of_ten(scale.power - places)), places);
}

}  // namespace tenth
