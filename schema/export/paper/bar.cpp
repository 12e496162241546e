#include "schema/export/paper/bar.hpp"

#include <algorithm>

namespace tenth::paper {
namespace {

constexpr double kWidth = 150, kHeight = 18, kMiddle = kHeight / 2;

/// From lengths to places on the bar. What lies beyond is shown at the edge.
struct Ruler {
  Length left, right;

  double at(Length length) const {
    const double part = static_cast<double>((length - left).pm()) / static_cast<double>((right - left).pm());
    return std::clamp(part, 0.0, 1.0) * kWidth;
  }
};

/// The limits take the middle half of the bar; with one limit or none, the figures do.
std::optional<Ruler> ruler(const Span& span, const Limits& limits) {
  const Length low = limits.lower ? *limits.lower : std::min(*span.least, limits.upper.value_or(*span.least));
  const Length high = limits.upper ? *limits.upper : std::max(*span.greatest, limits.lower.value_or(*span.greatest));
  const Length margin = Length::from_pm((high - low).pm() / 2);
  if (margin <= Length()) return std::nullopt;
  return Ruler{low - margin, high + margin};
}

Shape upright(double x) {
  return line(Ink::limit, {{x, 1}, {x, kHeight - 1}});
}

Shape across(Ink ink, double from, double to, double height) {
  constexpr double kLeast = 1.5;  // else one figure alone would not be seen
  return box(ink, {from, kMiddle - height / 2}, {std::max(to, from + kLeast), kMiddle + height / 2});
}

Shape target_sign(double x) {
  return area(Ink::target, {{x - 3, 0}, {x + 3, 0}, {x, 4.5}});
}

}  // namespace

std::optional<Drawing> bar(const Span& span, const Limits& limits, const std::optional<Length>& target) {
  if (!span.least || !span.greatest || !limits.any()) return std::nullopt;
  const auto scale = ruler(span, limits);
  if (!scale) return std::nullopt;
  Drawing drawing{"bar", kWidth, kHeight, 44, {}};
  auto& shapes = drawing.shapes;
  shapes.push_back(across(Ink::allowed, limits.lower ? scale->at(*limits.lower) : 0,
                          limits.upper ? scale->at(*limits.upper) : kWidth, 12));
  for (const auto& limit : {limits.lower, limits.upper})
    if (limit) shapes.push_back(upright(scale->at(*limit)));
  if (target) shapes.push_back(target_sign(scale->at(*target)));
  shapes.push_back(across(Ink::span, scale->at(*span.least), scale->at(*span.greatest), 3.6));
  if (span.mean) shapes.push_back(circle(Ink::mean, {scale->at(*span.mean), kMiddle}, 2.6));
  return drawing;
}

}  // namespace tenth::paper
