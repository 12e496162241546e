#include "rules/stream/turning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

#include "rules/names.hpp"
#include "rules/stream/passes.hpp"
#include "rules/stream/turn_fit.hpp"

namespace tenth::stream {
namespace {

constexpr Names<NoTurning, 4> kNames = {{"too_few", "too_fast", "one_sided", "disagree"}};

/// Two passes agree by chance, or because both went askew the same way; three show a spread.
constexpr std::size_t kFewest = 3;

/// Samples beside the smallest of a pass that show one side of the turn.
constexpr std::size_t kBeside = 2;

/// A pass counts to this part of the time from turn to turn on either side of its smallest value: what is further up
/// says how the hand comes back, not where the gauge turns.
constexpr double kReach = 0.6;

/// A parabola is twice as wide half up as an eighth up, the curve of a pendulum hand 2.2 times. A gauge that comes back
/// before its turn lingers there (less), or bounces (more).
constexpr double kLingers = 1.8, kBounces = 2.6;

/// The turns of sound passes lie within some micrometres, more where the value runs so fast that late arrivals and the
/// samples' distance count: by this part of what it changes from one sample to the next at the turn.
constexpr double kAgree = 0.01, kOfRun = 0.02;  // mm, 1

using Samples = std::span<const Sample>;

double mm(Length length) {
  return static_cast<double>(length.pm()) * 1e-9;
}

Length at_step(double mm, Length base, Length step) {
  const Wide pm = base.pm() + static_cast<Wide>(std::round(mm * 1e9));
  return step * divide_rounded(pm, step.pm());
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

/// What one pass shows.
struct Seen {
  double turn = 0;  ///< above the smallest sample of all, mm
  double openness = 0;
  double run = 0;  ///< change of value from the smallest sample to its neighbours, mm
};

/// Passes that turn far above the others are no passes where they are the first or the last: the gauge on its way in
/// or out.
void leave_out_the_way(std::vector<Pass>& passes, Samples samples) {
  if (passes.empty()) return;
  const auto value = [&](const Pass& pass) { return samples[pass.lowest].value; };
  const Length near = value(std::ranges::min(passes, {}, value)) + kNear;
  if (value(passes.front()) > near) passes.erase(passes.begin());
  if (value(passes.back()) > near) passes.pop_back();
}

/// Nanoseconds from turn to turn, typically.
double time_of(std::span<const Pass> passes, Samples samples) {
  std::vector<double> times;
  for (std::size_t i = 1; i < passes.size(); ++i)
    times.push_back(static_cast<double>(Wide{samples[passes[i].lowest].at_ns} - samples[passes[i - 1].lowest].at_ns));
  return median(std::move(times));
}

tl::expected<Seen, NoTurning> look_at(const Pass& pass, Samples samples, Length base, double time) {
  const Sample& lowest = samples[pass.lowest];
  const auto height = [&](std::size_t i) { return mm(samples[i].value - lowest.value); };
  std::vector<Point> points;
  std::size_t before = 0, after = 0;
  for (std::size_t i = pass.from; i <= pass.to; ++i) {
    const double x = static_cast<double>(Wide{samples[i].at_ns} - lowest.at_ns) / time;
    if (!(std::abs(x) <= kReach)) continue;
    points.push_back({x * std::numbers::pi, height(i)});
    before += i < pass.lowest ? 1 : 0;
    after += i > pass.lowest ? 1 : 0;
  }
  if (std::min(before, after) < kBeside)
    return tl::unexpected(std::max(before, after) > 2 * kBeside ? NoTurning::one_sided : NoTurning::too_fast);
  const auto turn = fit_turn(points, std::min(height(pass.from), height(pass.to)));
  if (!turn) return tl::unexpected(turn.error());
  return Seen{mm(lowest.value - base) + turn->height, turn->openness,
              (height(pass.lowest - 1) + height(pass.lowest + 1)) / 2};
}

std::vector<double> all(std::span<const Seen> seen, double Seen::* what) {
  std::vector<double> values;
  for (const Seen& one : seen) values.push_back(one.*what);
  return values;
}

/// The turns of the passes that show one; the reason of most others where these are too few.
tl::expected<std::vector<Seen>, NoTurning> look_at_all(std::span<const Pass> passes, Samples samples, Length base) {
  std::vector<Seen> seen;
  std::size_t one_sided = 0;
  const double time = time_of(passes, samples);
  for (const Pass& pass : passes) {
    if (const auto one = look_at(pass, samples, base, time)) {
      seen.push_back(*one);
    } else if (one.error() == NoTurning::one_sided) {
      ++one_sided;
    }
  }
  if (seen.size() >= kFewest) return seen;
  const bool mostly = 2 * one_sided > passes.size() - seen.size();
  return tl::unexpected(mostly ? NoTurning::one_sided : NoTurning::too_fast);
}

}  // namespace

tl::expected<Turning, NoTurning> turning_point(Samples samples, Length step) {
  if (samples.empty()) return tl::unexpected(NoTurning::too_few);
  auto passes = passes_of(samples);
  leave_out_the_way(passes, samples);
  const auto [least, most] = std::ranges::minmax(samples, {}, &Sample::value);
  if (passes.empty() && most.value - least.value >= kRise) return tl::unexpected(NoTurning::one_sided);
  if (passes.size() < kFewest) return tl::unexpected(NoTurning::too_few);
  const auto seen = look_at_all(passes, samples, least.value);
  if (!seen) return tl::unexpected(seen.error());
  const double openness = median(all(*seen, &Seen::openness));
  auto turns = all(*seen, &Seen::turn);
  const auto [lowest, highest] = std::ranges::minmax(turns);
  const double agree = kAgree + kOfRun * median(all(*seen, &Seen::run));
  if (openness < kLingers || openness > kBounces || lowest > agree) return tl::unexpected(NoTurning::one_sided);
  if (highest - lowest > agree) return tl::unexpected(NoTurning::disagree);
  const double mean = std::accumulate(turns.begin(), turns.end(), 0.0) / static_cast<double>(turns.size());
  return Turning{at_step(mean, least.value, step), at_step(highest - lowest, Length(), step),
                 static_cast<int>(turns.size())};
}

std::string_view name(NoTurning why) {
  return kNames.of(why);
}

std::string explain(NoTurning why) {
  switch (why) {
    case NoTurning::too_few:
      return "the gauge went through its turn less than three times: rock it to and fro for longer";
    case NoTurning::too_fast:
      return "the gauge sends too few values in each pass: rock it more slowly";
    case NoTurning::one_sided:
      return "the gauge did not go through its turn: rock it well past the smallest value on both sides";
    case NoTurning::disagree:
      break;
  }
  return "the passes do not turn at one size: keep the gauge at one place while it is rocked";
}

}  // namespace tenth::stream
