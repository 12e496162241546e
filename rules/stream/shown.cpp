#include "rules/stream/shown.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "rules/stream/turn_fit.hpp"

namespace tenth::stream {
namespace {

/// Samples between the heights of a pass, at least: with fewer the hand's motion would be guessed, not seen.
constexpr std::size_t kFewestBetween = 4;

/// With so many low samples on one side of the smallest, and none or one on the other, the gauge was lifted off.
constexpr std::array<std::size_t, 2> kAlone = {3, 6};

/// Farther from the smallest sample than this part of the time from turn to turn lies a rest, or the next pass.
constexpr double kReach = 0.6;

/// A lower side, mm, of which an eighth stands out from the noise of gauges that read micrometres.
constexpr double kMeasurable = 0.15;

using Points = std::vector<Point>;

Points points_of(const Pass& pass, std::span<const Sample> samples, double time_ns) {
  const Sample& lowest = samples[pass.lowest];
  Points points;
  for (const Sample& sample : samples.subspan(pass.from, pass.to - pass.from + 1)) {
    const auto after_ns = static_cast<double>(Wide{sample.at_ns} - lowest.at_ns);
    const auto above_pm = static_cast<double>((sample.value - lowest.value).pm());
    points.push_back({after_ns / time_ns * std::numbers::pi, above_pm * 1e-9});
  }
  return points;
}

/// The points around the turn, from the lowest outwards to the lower neighbour: all below half of the lower side, for
/// further up is how the hand comes back; but as many as a curve needs.
std::span<const Point> near_turn(const Points& points, std::size_t lowest, double side) {
  std::size_t first = lowest, last = lowest;
  const auto within = [&](std::size_t i) { return std::abs(points[i].x) <= kReach * std::numbers::pi; };
  for (;;) {
    const bool left = first > 0 && within(first - 1), right = last + 1 < points.size() && within(last + 1);
    if (!left && !right) break;
    const bool lower_left = left && (!right || points[first - 1].height < points[last + 1].height);
    const double next = points[lower_left ? first - 1 : last + 1].height;
    if (last - first + 1 >= kTerms && next > side / 2) break;
    lower_left ? --first : ++last;
  }
  return std::span(points).subspan(first, last - first + 1);
}

/// How far from the lowest the pass rises above `height`, going by `step` (1 or -1). Between samples the root of the
/// height above the turn runs evenly.
double reach_of(const Points& points, std::size_t lowest, double turn, double height, int step) {
  auto at = points.begin() + static_cast<std::ptrdiff_t>(lowest);
  while (at[step].height <= height) at += step;
  const auto root = [&](double h) { return std::sqrt(std::max(0.0, h - turn)); };
  const double inner = root(at->height), outer = root(at[step].height);
  return std::abs(at->x + (at[step].x - at->x) * (root(height) - inner) / (outer - inner));
}

std::optional<double> openness_of(const Points& points, std::size_t lowest, double side, double turn, double run) {
  const double half = turn + (side - turn) / 2, eighth = turn + (side - turn) / 8;
  if (side < kMeasurable || run > eighth) return std::nullopt;
  const auto width = [&](double height) {
    return reach_of(points, lowest, turn, height, -1) + reach_of(points, lowest, turn, height, 1);
  };
  return width(half) / width(eighth);
}

}  // namespace

tl::expected<Shown, NoTurning> shown_by(const Pass& pass, std::span<const Sample> samples, double time_ns) {
  const Points points = points_of(pass, samples, time_ns);
  const std::size_t lowest = pass.lowest - pass.from;
  const double side = std::min(points.front().height, points.back().height);
  const auto low = [&](std::span<const Point> some) {
    return static_cast<std::size_t>(std::ranges::count_if(some, [&](const Point& p) { return p.height <= side / 2; }));
  };
  const auto [fewer, more] =
      std::minmax({low(std::span(points).first(lowest)), low(std::span(points).subspan(lowest + 1))});
  if (fewer < kAlone.size() && more >= kAlone[fewer]) return tl::unexpected(NoTurning::one_sided);
  if (points.size() < kFewestBetween + 2) return tl::unexpected(NoTurning::too_fast);
  const auto turn = fit_turn(near_turn(points, lowest, side));
  if (!turn) return tl::unexpected(turn.error());
  if (!(*turn < side / 2)) return tl::unexpected(NoTurning::too_fast);  // times that hardly differ, and rounding
  const double run = (points[lowest - 1].height + points[lowest + 1].height) / 2;
  return Shown{*turn, run, openness_of(points, lowest, side, *turn, run)};
}

}  // namespace tenth::stream
