#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "rules/result.hpp"
#include "rules/wide.hpp"

namespace tenth {

/// The unit in which people and gauges write lengths.
enum class Unit { mm, in };

/// A length as an exact integer of picometres: an inch is 25.4 mm exactly, so both units have whole numbers down to
/// a millionth of an inch (25 400 pm) and limits compare exactly.
/// Every length that came from outside is at most 100 m either way. Whatever is made of it stops at the ends of 64 bits
/// (9223 km): arithmetic never comes round to a length that looks right.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length from_pm(std::int64_t pm) { return Length(pm); }
  static constexpr Length from_um(std::int64_t um) { return Length(um) * 1'000'000; }
  static constexpr Length from_mm(std::int64_t mm) { return Length(mm) * 1'000'000'000; }

  constexpr std::int64_t pm() const { return pm_; }
  constexpr Length magnitude() const { return pm_ < 0 ? -*this : *this; }

  friend constexpr Length operator+(Length a, Length b) { return Length(narrowed(Wide{a.pm_} + b.pm_)); }
  friend constexpr Length operator-(Length a, Length b) { return Length(narrowed(Wide{a.pm_} - b.pm_)); }
  friend constexpr Length operator-(Length a) { return Length() - a; }
  friend constexpr Length operator*(Length a, std::int64_t times) { return Length(narrowed(Wide{a.pm_} * times)); }
  friend constexpr auto operator<=>(Length, Length) = default;

 private:
  explicit constexpr Length(std::int64_t pm) : pm_(pm) {}
  std::int64_t pm_ = 0;
};

inline constexpr Length kInch = Length::from_um(25'400);
inline constexpr Length kLongest = Length::from_mm(100'000);

/// One of the unit.
constexpr Length length_of(Unit unit) {
  return unit == Unit::in ? kInch : Length::from_mm(1);
}

/// A quotient of integers rounded to the nearest integer, halves away from zero. `divisor` is positive.
std::int64_t divide_rounded(Wide dividend, std::int64_t divisor);

/// The mean, rounded half away from zero to a picometre. `lengths` is not empty.
Length mean(std::span<const Length> lengths);

/// A bare decimal number ("-0.0123", "+ 1,5e-3" is refused: see `drivers/line`) in `unit`, exactly.
/// Refused: no number, finer than a picometre, beyond 100 m. Never passes through floating point.
Result<Length> length_from_decimal(std::string_view number, Unit unit);

/// A length as people type it: a number, an optional blank, then `mm um in thou tenth`; without a unit it is in `bare`
/// (thou 0.001 in, tenth 0.0001 in). No unit and no `bare`, or no length: exit status 2.
Result<Length> parse_length(std::string_view text, std::optional<Unit> bare);

/// The unit of a length that `parse_length` takes: mm for um, inches for thou and tenths, `bare` where none is typed.
Unit unit_typed(std::string_view text, std::optional<Unit> bare);

/// "mm" or "in"; refused otherwise.
Result<Unit> parse_unit(std::string_view text);
std::string_view name(Unit unit);

/// The shortest exact decimal in millimetres, at most nine places: "83.0104".
std::string exact_mm(Length length);

/// For people: `unit`, a fixed number of places (rounded half away from zero), and a minus where negative: "3.2681".
std::string fixed(Length length, Unit unit, int places);

/// The places people read: 4 for inches (a tenth), 3 for millimetres (a micrometre).
constexpr int usual_places(Unit unit) {
  return unit == Unit::in ? 4 : 3;
}

}  // namespace tenth
