#include "schema/export/html/outline.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "schema/export/html/markup.hpp"

namespace tenth::page {
namespace {

// One ring's picture, in its own units: the centre, and room above and to the right of it for the names of the axes.
constexpr double kSide = 132, kCentreX = 59, kCentreY = 70;
constexpr double kBaseRadius = 36, kMostError = 11, kSizeRadius = 56, kNameRadius = 66.5, kMostRadius = 58;

struct Diameter {
  std::string axis;
  double angle = 0;  ///< clockwise from upright
  std::optional<Length> size;
};

struct Point {
  double x = 0, y = 0;
};

Point at(double radius, double angle) {
  return {kCentreX + radius * std::sin(angle), kCentreY - radius * std::cos(angle)};
}

std::string attribute(const char* key, double value) {
  return " " + std::string(key) + "=\"" + coordinate(value) + "\"";
}

double radius_of(Length size, const Enlargement& scale) {
  const double radius = kBaseRadius + static_cast<double>((size - scale.reference).pm()) * scale.px_per_pm;
  return std::clamp(radius, 0.0, kMostRadius);
}

/// The first axis stands upright: seen from above with the crank lying across the page, that is the thrust direction.
/// Every diameter is named at its upper or right end.
double angle_of(const Feature& feature, std::size_t axis) {
  const double step = std::numbers::pi / static_cast<double>(feature.axes.size());
  const double first = feature.axes.front() == "horizontal" ? std::numbers::pi / 2 : 0;
  return std::fmod(first + step * static_cast<double>(axis), std::numbers::pi);
}

std::vector<Diameter> diameters(const Feature& feature, int index, const std::string& level,
                                const CountingMap& counts) {
  std::vector<Diameter> result;
  for (std::size_t i = 0; i < feature.axes.size(); ++i) {
    const auto found = counts.find(Place{feature.name, index, level, feature.axes[i]});
    const auto size = found == counts.end() ? std::nullopt : std::optional(found->second.size);
    result.push_back({feature.axes[i], angle_of(feature, i), size});
  }
  return result;
}

/// The smoothest closed curve through evenly spread diameters (trigonometric interpolation over half a turn); for two
/// axes a + b cos 2θ, which is an ellipse as long as the error is small.
double weight(double turn, std::size_t count) {
  const double n = static_cast<double>(count), half = turn / 2;
  if (std::abs(std::sin(half)) < 1e-9) return 1;
  const double sine = std::sin(n * half) / n;
  return count % 2 == 0 ? sine / std::tan(half) : sine / std::sin(half);
}

std::string closed_line(const std::vector<Diameter>& across, const Enlargement& scale) {
  constexpr int kSteps = 96;
  std::string points;
  for (int step = 0; step < kSteps; ++step) {
    const double angle = 2 * std::numbers::pi * step / kSteps;
    double radius = 0;
    for (const Diameter& d : across) radius += radius_of(*d.size, scale) * weight(2 * (angle - d.angle), across.size());
    const Point p = at(radius, angle);
    points += coordinate(p.x) + "," + coordinate(p.y) + " ";
  }
  return "<polygon class=\"measured\" points=\"" + points + "\"/>";
}

std::string circle(const char* css_class, Point centre, double radius) {
  return "<circle class=\"" + std::string(css_class) + "\"" + attribute("cx", centre.x) + attribute("cy", centre.y) +
         attribute("r", radius) + "/>";
}

std::string limit_circles(const Limits& limits, const Enlargement& scale) {
  const Point centre{kCentreX, kCentreY};
  std::string out;
  if (limits.upper) out += circle(limits.lower ? "allowed" : "limit", centre, radius_of(*limits.upper, scale));
  if (limits.lower) out += circle("limit inner", centre, radius_of(*limits.lower, scale));
  return out;
}

/// A dot where the gauge touched; a cross in a square where that lies beyond a limit, so it shows without colour.
std::string touch(Point p, bool beyond) {
  if (!beyond) return circle("touch", p, 2.2);
  return "<path class=\"beyond\" d=\"M" + coordinate(p.x - 3.5) + " " + coordinate(p.y - 3.5) +
         "h7v7h-7zl7 7m0-7l-7 7\"/>";
}

std::string along_ring(const char* css_class, double radius, double angle, const std::string& words) {
  const Point p = at(radius, angle);
  return element("text class=\"" + std::string(css_class) + "\"" + attribute("x", p.x) + attribute("y", p.y) +
                     " transform=\"rotate(" + coordinate(angle * 180 / std::numbers::pi) + " " + coordinate(p.x) + " " +
                     coordinate(p.y) + ")\"",
                 words);
}

/// The axis and its size, written along the ring one above the other.
std::string axis_words(const Diameter& d, Unit unit) {
  return along_ring("axis", kNameRadius, d.angle, escaped(d.axis)) +
         along_ring("size", kSizeRadius, d.angle, d.size ? figure(d.size, unit) : "not read");
}

std::string ring(const Feature& feature, const std::string& level, const std::vector<Diameter>& across,
                 const Enlargement& scale, Unit unit) {
  const bool complete = std::all_of(across.begin(), across.end(), [](const Diameter& d) { return d.size.has_value(); });
  std::string out = limit_circles(feature.limits, scale);
  if (complete) out += closed_line(across, scale);
  for (const Diameter& d : across) {
    out += axis_words(d, unit);
    if (!d.size) continue;
    const bool beyond = (feature.limits.lower && *d.size < *feature.limits.lower) ||
                        (feature.limits.upper && *d.size > *feature.limits.upper);
    for (const double side : {0.0, std::numbers::pi})
      out += touch(at(radius_of(*d.size, scale), d.angle + side), beyond);
  }
  return out + element("text class=\"level\"" + attribute("x", kCentreX) + attribute("y", kCentreY), escaped(level));
}

Length middle(const Feature& feature, const std::vector<Length>& sizes) {
  const Limits& limits = feature.limits;
  if (limits.lower && limits.upper) return mean(std::vector<Length>{*limits.lower, *limits.upper});
  return sizes.empty() ? limits.lower.value_or(limits.upper.value_or(Length())) : mean(sizes);
}

}  // namespace

Enlargement enlargement(const Feature& feature, const std::vector<Length>& sizes) {
  Enlargement scale{middle(feature, sizes), 0, 1};
  Length largest;
  std::vector<Length> all = sizes;
  for (const auto& limit : {feature.limits.lower, feature.limits.upper})
    if (limit) all.push_back(*limit);
  for (const Length size : all) largest = std::max(largest, (size - scale.reference).magnitude());
  const double natural = scale.reference > Length() ? kBaseRadius / static_cast<double>(scale.reference.pm()) : 0;
  const double room = largest > Length() ? kMostError / (static_cast<double>(largest.pm()) * natural) : 1;
  for (int decade = 1; decade <= 100'000; decade *= 10)
    for (const int step : {1, 2, 5})
      if (step * decade <= room) scale.times = step * decade;
  scale.px_per_pm = natural * scale.times;
  return scale;
}

bool has_outline(const Feature& feature) {
  return feature.axes.size() >= 2 && (feature.kind == Kind::inside || feature.kind == Kind::outside);
}

std::string outlines(const Feature& feature, int index, const CountingMap& counts, const Enlargement& scale,
                     Unit unit) {
  const std::vector<std::string> levels = feature.levels.empty() ? std::vector<std::string>{""} : feature.levels;
  std::string rings;
  double top = 0;
  for (const std::string& level : levels) {
    rings += element("g transform=\"translate(0 " + coordinate(top) + ")\"",
                     ring(feature, level, diameters(feature, index, level, counts), scale, unit));
    top += kSide;
  }
  return element("svg class=\"outline\" role=\"img\" viewBox=\"0 0 " + coordinate(kSide) + " " + coordinate(top) + "\"",
                 rings);
}

}  // namespace tenth::page
