#include "rules/stream/turning.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <vector>

#include "rules/names.hpp"
#include "rules/statistics/summary.hpp"
#include "rules/stream/even.hpp"
#include "rules/stream/passes.hpp"
#include "rules/stream/shown.hpp"

namespace tenth::stream {
namespace {

constexpr Names<NoTurning, 4> kNames = {{"too_few", "too_fast", "one_sided", "disagree"}};

/// Two passes agree by chance, or because both went askew the same way; three show a spread.
constexpr std::size_t kFewest = 3;

/// A gauge that swings through its turn has the openness of a parabola, 2, or up to 2.2 as the hand slows down at the
/// ends. One that comes back before its turn lingers there (less), or is jerked back (more).
constexpr double kLingers = 1.93, kJerked = 2.35;

/// The turns of sound passes differ by no more than readings at one place may, mm, where the spec says nothing else;
/// and by this part of what the value runs between samples at the turn: so much more count late arrivals and the hand.
constexpr double kAgree = 0.0127, kOfRun = 0.02;

using Samples = std::span<const Sample>;

Length at_step(double mm, Length base, Length step) {
  const Wide pm = base.pm() + static_cast<Wide>(std::round(mm * 1e9));
  return step * divide_rounded(pm, step.pm());
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

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

/// What is seen of a stretch as a whole; turns are above its smallest sample, mm.
struct Seen {
  std::vector<double> turns, runs, opennesses;
};

/// The passes that show a turn; the reason of most others where these are too few.
tl::expected<Seen, NoTurning> look_at(std::span<const Pass> passes, Samples samples, Length smallest) {
  Seen seen;
  std::size_t one_sided = 0;
  const double time_ns = time_of(passes, samples);
  for (const Pass& pass : passes) {
    const auto shown = shown_by(pass, samples, time_ns);
    if (!shown) {
      if (shown.error() == NoTurning::one_sided) ++one_sided;
      continue;
    }
    seen.turns.push_back(statistics::millimetres(samples[pass.lowest].value - smallest) + shown->turn);
    seen.runs.push_back(shown->run);
    if (shown->openness) seen.opennesses.push_back(*shown->openness);
  }
  if (seen.turns.size() >= kFewest) return seen;
  const bool mostly = 2 * one_sided > passes.size() - seen.turns.size();
  return tl::unexpected(mostly ? NoTurning::one_sided : NoTurning::too_fast);
}

bool comes_back(const Seen& seen) {
  if (seen.opennesses.empty()) return false;
  const double openness = median(seen.opennesses);
  return openness < kLingers || openness > kJerked;
}

}  // namespace

tl::expected<Turning, NoTurning> turning_point(Samples arrived, Length step) {
  assert(step > Length());
  const std::vector<Sample> samples = evened(arrived);
  if (samples.empty()) return tl::unexpected(NoTurning::too_few);
  auto passes = passes_of(samples);
  leave_out_the_way(passes, samples);
  const auto [least, most] = std::ranges::minmax(samples, {}, &Sample::value);
  if (passes.empty() && most.value - least.value >= kRise) return tl::unexpected(NoTurning::one_sided);
  if (passes.size() < kFewest) return tl::unexpected(NoTurning::too_few);
  const auto seen = look_at(passes, samples, least.value);
  if (!seen) return tl::unexpected(seen.error());
  const auto [lowest, highest] = std::ranges::minmax(seen->turns);
  const double agree = kAgree + kOfRun * median(seen->runs);
  if (comes_back(*seen) || lowest > agree) return tl::unexpected(NoTurning::one_sided);
  if (highest - lowest > agree) return tl::unexpected(NoTurning::disagree);
  // The mean serves best for passes that differ by noise; a stray one, against which a median helps, was refused above.
  const auto count = static_cast<double>(seen->turns.size());
  const double mean = std::accumulate(seen->turns.begin(), seen->turns.end(), 0.0) / count;
  return Turning{at_step(mean, least.value, step), at_step(highest - lowest, Length(), step),
                 static_cast<int>(seen->turns.size())};
}

std::string_view name(NoTurning why) {
  return kNames.of(why);
}

Explained explain(NoTurning why) {
  switch (why) {
    case NoTurning::too_few:
      return {"the gauge went through its turn fewer than three times", "rock it to and fro for longer"};
    case NoTurning::too_fast:
      return {"the gauge sends too few values in each pass", "rock it more slowly"};
    case NoTurning::one_sided:
      return {"the gauge did not go through its turn", "rock it well past the smallest value on both sides"};
    case NoTurning::disagree:
      break;
  }
  return {"the passes do not turn at one size", "keep the gauge at one place while it is rocked"};
}

}  // namespace tenth::stream
