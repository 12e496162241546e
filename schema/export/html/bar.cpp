#include "schema/export/html/bar.hpp"

#include <algorithm>

#include "schema/export/html/markup.hpp"

namespace tenth::page {
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

std::string upright(double x, const char* css_class) {
  return "<path class=\"" + std::string(css_class) + "\" d=\"M" + coordinate(x) + " 1v16\"/>";
}

std::string rectangle(const char* css_class, double from, double to, double height) {
  return "<rect class=\"" + std::string(css_class) + "\" x=\"" + coordinate(from) + "\" width=\"" +
         coordinate(std::max(to - from, 1.5)) + "\" y=\"" + coordinate(kMiddle - height / 2) + "\" height=\"" +
         coordinate(height) + "\"/>";
}

std::string target_sign(double x) {
  return "<path class=\"target\" d=\"M" + coordinate(x - 3) + " 0h6l-3 4.5z\"/>";
}

std::string mean_sign(double x) {
  return "<circle class=\"mean\" r=\"2.6\" cy=\"" + coordinate(kMiddle) + "\" cx=\"" + coordinate(x) + "\"/>";
}

}  // namespace

std::string bar(const Span& span, const Limits& limits, const std::optional<Length>& target) {
  if (!span.least || !span.greatest || !limits.any()) return "";
  const auto scale = ruler(span, limits);
  if (!scale) return "";
  std::string out = rectangle("allowed", limits.lower ? scale->at(*limits.lower) : 0,
                              limits.upper ? scale->at(*limits.upper) : kWidth, 12);
  if (limits.lower) out += upright(scale->at(*limits.lower), "limit");
  if (limits.upper) out += upright(scale->at(*limits.upper), "limit");
  if (target) out += target_sign(scale->at(*target));
  out += rectangle("measured", scale->at(*span.least), scale->at(*span.greatest), 3.6);
  if (span.mean) out += mean_sign(scale->at(*span.mean));
  return element("svg class=\"bar\" role=\"img\" viewBox=\"0 0 150 18\"", out);
}

}  // namespace tenth::page
