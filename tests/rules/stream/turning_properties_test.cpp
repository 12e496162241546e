#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "rules/stream/rocking.hpp"
#include "tests/rules/printing.hpp"
#include "tests/rules/stream/rocked.hpp"

namespace tenth::stream {
namespace {

using testing::Hand;
using testing::Rocked;
using testing::stream_of;

constexpr Length kStep = Length::from_pm(100'000);

/// A rocking, sound or not; arrivals late by up to so many milliseconds.
std::vector<Sample> drawn(int most_late_ms = 4) {
  Rocked rocked;
  rocked.height = 0.1 * *rc::gen::inRange(1, 30);
  rocked.pass = 0.1 * *rc::gen::inRange(3, 20);
  rocked.passes = *rc::gen::inRange(1, 9);
  rocked.askew = 0.1 * *rc::gen::inRange(0, 15);
  rocked.unsteady = 0.01 * *rc::gen::inRange(0, 20);
  rocked.hand = *rc::gen::element(Hand::pendulum, Hand::even);
  rocked.hz = *rc::gen::inRange(5, 51);
  rocked.late = 0.001 * *rc::gen::inRange(0, most_late_ms + 1);
  return stream_of(rocked, *rc::gen::inRange<std::uint64_t>(0, 1000));
}

RC_GTEST_PROP(TurningProperties, CommonOffsetShiftsTheValueAlone, ()) {
  auto samples = drawn();
  const auto before = turning_point(samples, kStep);
  const Length offset = kStep * *rc::gen::inRange(-800'000, 1'000'000);  // stays above zero
  for (Sample& sample : samples) sample.value = sample.value + offset;
  auto after = turning_point(samples, kStep);
  if (after) after->value = after->value - offset;
  RC_ASSERT((after == before));
}

RC_GTEST_PROP(TurningProperties, TimeOfDayChangesNothing, ()) {
  auto samples = drawn();
  const auto before = turning_point(samples, kStep);
  const auto later = *rc::gen::inRange<std::int64_t>(-7'000'000'000'000, 9'000'000'000'000'000'000);
  for (Sample& sample : samples) sample.at_ns += later;
  RC_ASSERT((turning_point(samples, kStep) == before));
}

RC_GTEST_PROP(TurningProperties, TwiceAsSlowIsTheSame, ()) {
  auto samples = drawn(0);  // times that are evened out are rounded to nanoseconds, which may part ties
  const auto before = turning_point(samples, kStep);
  for (Sample& sample : samples) sample.at_ns *= 2;
  RC_ASSERT((turning_point(samples, kStep) == before));
}

/// A nanosecond may take a value more or less into a pass, no more.
RC_GTEST_PROP(TurningProperties, TwiceAsSlowLiesWithinTheSpread, ()) {
  auto samples = drawn();
  const auto before = turning_point(samples, kStep);
  for (Sample& sample : samples) sample.at_ns *= 2;
  const auto after = turning_point(samples, kStep);
  if (before && after) RC_ASSERT((after->value - before->value).magnitude() <= before->spread + after->spread + kStep);
}

RC_GTEST_PROP(TurningProperties, LiesNotFarAboveTheSmallestSample, ()) {
  const auto samples = drawn();
  const auto turning = turning_point(samples, kStep);
  if (!turning) return;
  const Length smallest = std::ranges::min(samples, {}, &Sample::value).value, noise = Length::from_um(15);
  RC_ASSERT(turning->passes >= 3);
  RC_ASSERT(turning->value <= smallest + turning->spread + noise);
}

RC_GTEST_PROP(TurningProperties, OneByOneIsTheSameAsTheStretch, ()) {
  const auto samples = drawn();
  Rocking rocking(kStep);
  for (const Sample& sample : samples) {
    const auto answer = rocking.take(sample);
    if (answer) RC_ASSERT((*answer == turning_point(rocking.samples(), kStep)));
  }
  const auto answer = rocking.stopped();
  if (answer) RC_ASSERT((*answer == turning_point(rocking.samples(), kStep)));
}

}  // namespace
}  // namespace tenth::stream
