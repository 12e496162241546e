#include "rules/stream/even.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace tenth::stream {

namespace {

constexpr std::size_t kFewest = 8;
/// Arrivals that jitter by less of an interval than this are better than any line.
constexpr double kStill = 0.03;
/// A line that arrivals lie so far off, in intervals and on average, is none: values are missing, or the rate changed.
constexpr double kOff = 2.0;

/// Seconds since the first.
std::vector<double> times_of(std::span<const Sample> samples) {
  std::vector<double> times;
  for (const Sample& sample : samples)
    times.push_back(static_cast<double>(Wide{sample.at_ns} - samples.front().at_ns) * 1e-9);
  return times;
}

struct Line {
  double at = 0, interval = 0,
         off = 0;  ///< time of the first, from each to the next, root mean square of what is off it
};

Line line_through(const std::vector<double>& times) {
  const auto n = static_cast<double>(times.size());
  const double middle = (n - 1) / 2;
  double mean = 0, along = 0, across = 0, squares = 0;
  for (const double time : times) mean += time / n;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const double from_middle = static_cast<double>(i) - middle;
    along += from_middle * (times[i] - mean);
    across += from_middle * from_middle;
  }
  Line line{0, along / across, 0};
  line.at = mean - line.interval * middle;
  for (std::size_t i = 0; i < times.size(); ++i)
    squares += std::pow(times[i] - line.at - line.interval * static_cast<double>(i), 2);
  line.off = std::sqrt(squares / n);
  return line;
}

/// How far the steps between arrivals differ from the usual one, typically. Where most come together with others, that
/// is the whole interval.
double jitter_of(const std::vector<double>& times, double interval) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < times.size(); ++i) steps.push_back(times[i] - times[i - 1]);
  const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
  std::nth_element(steps.begin(), middle, steps.end());
  const double usual = *middle;
  if (usual < interval / 2) return interval;
  for (double& step : steps) step = std::fabs(step - usual);
  std::nth_element(steps.begin(), middle, steps.end());
  return *middle;
}

}  // namespace

std::vector<Sample> evened(std::span<const Sample> samples) {
  std::vector<Sample> even(samples.begin(), samples.end());
  if (samples.size() < kFewest) return even;
  const std::vector<double> times = times_of(samples);
  const Line line = line_through(times);
  if (!(line.interval > 0) || jitter_of(times, line.interval) < kStill * line.interval ||
      line.off > kOff * line.interval)
    return even;
  for (std::size_t i = 0; i < even.size(); ++i) {
    const double time = line.at + line.interval * static_cast<double>(i);
    const Wide at_ns = samples.front().at_ns + static_cast<Wide>(std::round(time * 1e9));
    even[i].at_ns = static_cast<std::int64_t>(std::clamp<Wide>(at_ns, INT64_MIN, INT64_MAX));
  }
  return even;
}

}  // namespace tenth::stream
