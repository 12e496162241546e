#include "rules/plausible.hpp"

#include <algorithm>

namespace tenth {
namespace {

constexpr Length kWindow = Length::from_mm(1);        // default window beyond the limits
constexpr Length kNearLimits = Length::from_um(100);  // a slip undone lies so near to the limits
constexpr Length kNearTurn = Length::from_um(50);     // a turn undone lies so near to the middle of the limits
constexpr Length kRepeat = Length::from_pm(12'700'000);
constexpr Length kTurns[] = {Length::from_um(500), Length::from_um(635)};  // of a thimble: 0.5 mm, 0.025 in

struct Band {
  Length lower, upper;
  bool holds(Length length) const { return lower <= length && length <= upper; }
};

/// The limits as a band; where one is missing the other stands for it.
std::optional<Band> band_of(const Limits& limits) {
  if (!limits.any()) return std::nullopt;
  return Band{limits.lower ? *limits.lower : *limits.upper, limits.upper ? *limits.upper : *limits.lower};
}

std::optional<Band> window_of(const Feature& feature) {
  const auto band = band_of(feature.window ? *feature.window : feature.limits);
  if (!band || feature.window) return band;
  if (feature.kind == Kind::gap) return Band{Length(), band->upper * 5};
  return Band{band->lower - kWindow, band->upper + kWindow};
}

/// Whether size × times / by or size × by / times lies near the limits; exact, for by and times are whole.
bool explained_by(Length size, Band limits, std::int64_t times, std::int64_t by) {
  const Band near{limits.lower - kNearLimits, limits.upper + kNearLimits};
  const auto scaled = [&](std::int64_t up, std::int64_t down) {
    return Band{near.lower * down, near.upper * down}.holds(size * up);
  };
  return scaled(times, by) || scaled(by, times);
}

bool outside_limits(const Limits& limits, Length size) {
  return (limits.lower && size < *limits.lower) || (limits.upper && size > *limits.upper);
}

/// Whether a whole number of turns, at least one, leads near to the middle of the limits. All is doubled, for the
/// middle may lie between two picometres.
bool off_by_turns(Length size, Band limits) {
  const Length off = (size * 2 - limits.lower - limits.upper).magnitude();
  return std::ranges::any_of(kTurns, [off](Length turn) {
    const std::int64_t turns = std::max<std::int64_t>(1, divide_rounded(off.pm(), 2 * turn.pm()));
    return (off - turn * 2 * turns).magnitude() <= kNearTurn * 2;
  });
}

/// A gap may be filed wider between two readings; it never closes.
bool repeats_badly(const Feature& feature, Length size, Length counting) {
  const Length apart = feature.kind == Kind::gap ? counting - size : (counting - size).magnitude();
  return apart > feature.repeat.value_or(kRepeat);
}

}  // namespace

bool fits_kind(Measures measures, Kind kind) {
  switch (kind) {
    case Kind::inside:
      return measures == Measures::inside || measures == Measures::any;
    case Kind::outside:
      return measures == Measures::outside || measures == Measures::any;
    case Kind::gap:
      return measures == Measures::gap || measures == Measures::any;
    case Kind::depth:
      return measures == Measures::depth || measures == Measures::any;
    case Kind::check:
      break;
  }
  return false;
}

std::vector<Doubt> doubts_of_size(const Feature& feature, Length size, std::optional<Length> counting) {
  std::vector<Doubt> doubts;
  const auto window = window_of(feature);
  const auto limits = band_of(feature.limits);
  if (window && !window->holds(size)) {
    doubts.push_back(Doubt::range);
    if (limits && explained_by(size, *limits, 10, 1)) doubts.push_back(Doubt::tenfold);
    if (limits && explained_by(size, *limits, 254, 10)) doubts.push_back(Doubt::inch_mm);
  }
  if (feature.kind == Kind::outside && outside_limits(feature.limits, size) && off_by_turns(size, *limits))
    doubts.push_back(Doubt::turn);
  if (counting && repeats_badly(feature, size, *counting)) doubts.push_back(Doubt::repeat);
  return doubts;
}

}  // namespace tenth
