#include "schema/export/paper/outline.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

// One ring's picture, in its own units: the centre, and room above and to the right of it for the names of the axes.
constexpr double kSide = 134, kCentreX = 59, kCentreY = 74;
constexpr double kBaseRadius = 36, kMostError = 11, kSizeRadius = 56, kNameRadius = 68.5, kMostRadius = 58;

struct Diameter {
  std::string axis;
  double angle = 0;  ///< clockwise from upright
  std::optional<Length> size;
};

/// One ring in its place in the picture.
struct Ring {
  const Feature& feature;
  const Enlargement& scale;
  Unit unit;
  double top = 0;
  std::vector<Shape>& shapes;

  Point at(double radius, double angle) const {
    return {kCentreX + radius * std::sin(angle), top + kCentreY - radius * std::cos(angle)};
  }
};

double radius_of(Length size, const Enlargement& scale) {
  const double radius = kBaseRadius + static_cast<double>((size - scale.reference).pm()) * scale.per_pm;
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

Shape closed_line(const Ring& ring, const std::vector<Diameter>& across) {
  constexpr int kSteps = 96;
  Shape line = area(Ink::outline, {});
  for (int step = 0; step < kSteps; ++step) {
    const double angle = 2 * std::numbers::pi * step / kSteps;
    double radius = 0;
    for (const Diameter& d : across)
      radius += radius_of(*d.size, ring.scale) * weight(2 * (angle - d.angle), across.size());
    line.points.push_back(ring.at(radius, angle));
  }
  return line;
}

void draw_limits(const Ring& ring) {
  const Limits& limits = ring.feature.limits;
  const Point centre = ring.at(0, 0);
  if (limits.upper)
    ring.shapes.push_back(
        circle(limits.lower ? Ink::allowed : Ink::limit, centre, radius_of(*limits.upper, ring.scale)));
  if (limits.lower) ring.shapes.push_back(circle(Ink::inner, centre, radius_of(*limits.lower, ring.scale)));
}

/// A dot where the gauge touched; a cross in a square where that lies beyond a limit, so it shows without colour.
void draw_touch(const Ring& ring, Point p, bool beyond) {
  constexpr double kHalf = 3.5;
  if (!beyond) return ring.shapes.push_back(circle(Ink::touch, p, 2.2));
  const Point corner{p.x - kHalf, p.y - kHalf}, opposite{p.x + kHalf, p.y + kHalf};
  ring.shapes.push_back(box(Ink::beyond, corner, opposite));
  ring.shapes.push_back(line(Ink::beyond, {corner, opposite}));
  ring.shapes.push_back(line(Ink::beyond, {{p.x + kHalf, p.y - kHalf}, {p.x - kHalf, p.y + kHalf}}));
}

/// The axis and its size, written along the ring one above the other.
void write_axis(const Ring& ring, const Diameter& d) {
  const double degrees = d.angle * 180 / std::numbers::pi;
  ring.shapes.push_back(words(Ink::axis, ring.at(kNameRadius, d.angle), degrees, d.axis));
  const std::string size = d.size ? figure(d.size, ring.unit) : "not read";
  ring.shapes.push_back(words(Ink::size, ring.at(kSizeRadius, d.angle), degrees, size));
}

void draw_ring(const Ring& ring, const std::string& level, const std::vector<Diameter>& across) {
  const Limits& limits = ring.feature.limits;
  const bool complete = std::ranges::all_of(across, [](const Diameter& d) { return d.size.has_value(); });
  draw_limits(ring);
  if (complete) ring.shapes.push_back(closed_line(ring, across));
  for (const Diameter& d : across) {
    write_axis(ring, d);
    if (!d.size) continue;
    const bool beyond = (limits.lower && *d.size < *limits.lower) || (limits.upper && *d.size > *limits.upper);
    for (const double side : {0.0, std::numbers::pi})
      draw_touch(ring, ring.at(radius_of(*d.size, ring.scale), d.angle + side), beyond);
  }
  ring.shapes.push_back(words(Ink::level, ring.at(0, 0), 0, level));
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
  scale.per_pm = natural * scale.times;
  return scale;
}

bool has_outline(const Feature& feature) {
  return feature.axes.size() >= 2 && (feature.kind == Kind::inside || feature.kind == Kind::outside);
}

Drawing outlines(const Feature& feature, int index, const CountingMap& counts, const Enlargement& scale, Unit unit) {
  const std::vector<std::string> levels = feature.levels.empty() ? std::vector<std::string>{""} : feature.levels;
  Drawing drawing{"outline", kSide, kSide * static_cast<double>(levels.size()), 36, {}};
  double top = 0;
  for (const std::string& level : levels) {
    draw_ring({feature, scale, unit, top, drawing.shapes}, level, diameters(feature, index, level, counts));
    top += kSide;
  }
  return drawing;
}

}  // namespace tenth::paper
