// What must not depend on the order of the readings, on a common offset or on the unit.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "rules/statistics/run_rules.hpp"
#include "tests/rules/statistics/numbers.hpp"
#include "tests/rules/statistics/references.hpp"

namespace tenth::statistics {
namespace {

using testing::Numbers;
using testing::numbers;
using Readings = std::vector<double>;

/// Whole numbers: an offset of a whole number and a unit that is a power of two are then exact.
Readings drawn() {
  Readings values;
  for (const int x :
       *rc::gen::container<std::vector<int>>(*rc::gen::inRange<std::size_t>(5, 30), rc::gen::inRange(-20, 21)))
    values.push_back(x);
  return values;
}

double drawn_offset() {
  return *rc::gen::inRange(-1000, 1001);
}

constexpr double kUnit = 1.0 / 1024;

Readings changed(Readings values, double scale, double offset) {
  for (double& x : values) x = scale * x + offset;
  return values;
}

template <class T>
std::vector<T> shuffled(std::vector<T> values) {
  for (std::size_t left = values.size(); left > 1; --left)
    std::swap(values[left - 1], values[*rc::gen::inRange<std::size_t>(0, left)]);
  return values;
}

void assert_alike(const Numbers& a, const Numbers& b, double least = 1e-9) {
  RC_ASSERT(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i)
    RC_ASSERT(std::abs(a[i] - b[i]) <= 1e-9 * (std::abs(a[i]) + std::abs(b[i])) + least);
}

/// Where F of one degree of freedom is next to nothing its p falls short of 1 by its root: a rounding of 1e-16 shows as
/// 1e-8.
constexpr double kRooted = 1e-7;

RC_GTEST_PROP(Invariance, TheOrderOfReadingsDoesNotMatter, ()) {
  const Readings values = drawn(), others = shuffled(values);
  assert_alike(numbers(describe(values).value()), numbers(describe(others).value()));
  assert_alike(numbers(bias(values, 3).value()), numbers(bias(others, 3).value()));
  assert_alike(numbers(grubbs(values).value()), numbers(grubbs(others).value()));
  assert_alike(numbers(one_way(std::vector{values, Readings{0, 1}}).value()),
               numbers(one_way(std::vector{Readings{1, 0}, others}).value()));
}

RC_GTEST_PROP(Invariance, ACommonOffsetMovesNothingButMeans, ()) {
  const Readings values = drawn();
  const double offset = drawn_offset();
  const Readings moved = changed(values, 1, offset);
  assert_alike({describe(values)->mean + offset, describe(values)->squares},
               {describe(moved)->mean, describe(moved)->squares});
  assert_alike(numbers(bias(values, 3)->bias), numbers(bias(moved, 3 + offset)->bias));
  assert_alike(numbers(grubbs(values).value()), numbers(grubbs(moved).value()));
  assert_alike(numbers(one_way(std::vector{values, Readings{0, 1}}).value()),
               numbers(one_way(std::vector{moved, Readings{offset, 1 + offset}}).value()));
  const Individuals here = individuals(values).value(), there = individuals(moved).value();
  assert_alike({here.sigma, here.mean + offset, here.limits.upper + offset},
               {there.sigma, there.mean, there.limits.upper});
  RC_ASSERT(run_rules(values, here.mean, here.sigma).value() == run_rules(moved, there.mean, there.sigma).value());
}

RC_GTEST_PROP(Invariance, AnotherUnitScalesLengthsAndKeepsTests, ()) {
  const Readings values = drawn(), scaled_values = changed(values, kUnit, 0);
  RC_ASSERT(describe(scaled_values)->deviation == describe(values)->deviation * kUnit);
  RC_ASSERT(numbers(grubbs(scaled_values).value()) == numbers(grubbs(values).value()));
  const Estimate here = bias(values, 3)->bias, there = bias(scaled_values, 3 * kUnit)->bias;
  RC_ASSERT(numbers(scaled(here, kUnit)) == numbers(there));
  const Individuals chart = individuals(values).value(), other = individuals(scaled_values).value();
  RC_ASSERT(other.sigma == chart.sigma * kUnit);
  RC_ASSERT(run_rules(values, chart.mean, chart.sigma).value() ==
            run_rules(scaled_values, other.mean, other.sigma).value());
}

std::vector<MasterReading> drawn_masters(double offset, double scale) {
  std::vector<MasterReading> readings;
  const Readings values = drawn();
  for (std::size_t i = 0; i < values.size(); ++i) {
    const auto reference = static_cast<double>(10 * (i % 3));
    readings.push_back({scale * (reference + offset), scale * (reference + values[i] + offset)});
  }
  return readings;
}

RC_GTEST_PROP(Invariance, LinearityKnowsNeitherOrderNorOffsetNorUnit, ()) {
  const auto readings = drawn_masters(0, 1);
  const Linearity here = linearity(readings).value(), again = linearity(shuffled(readings)).value();
  assert_alike(numbers(here), numbers(again), kRooted);
  const double offset = drawn_offset();
  auto other = readings;
  for (auto& [reference, value] : other) {
    reference = (reference + offset) * kUnit;
    value = (value + offset) * kUnit;
  }
  const Linearity there = linearity(other).value();
  assert_alike(numbers(here.line.slope), numbers(there.line.slope), kRooted);
  assert_alike({here.line.residual_deviation * kUnit}, {there.line.residual_deviation}, kRooted);
  assert_alike(numbers(here.lack_p), numbers(there.lack_p), kRooted);
  RC_ASSERT(here.acceptable == there.acceptable);
}

RC_GTEST_PROP(Invariance, DriftDoesNotDependOnWhenTimeBeganOrWhatTheMasterIs, ()) {
  const Readings values = drawn();
  std::vector<MasterCheck> checks;
  for (std::size_t i = 0; i < values.size(); ++i) checks.push_back({static_cast<double>(i * i), values[i]});
  auto later = shuffled(checks);
  const double days = drawn_offset(), offset = drawn_offset();
  for (auto& check : later) check = {check.days + days, check.value + offset};
  assert_alike(numbers(drift(checks)->per_month), numbers(drift(later)->per_month));
}

std::vector<StudyReading> drawn_study() {
  const int parts = *rc::gen::inRange(2, 6), trials = *rc::gen::inRange(2, 4);
  std::vector<StudyReading> readings;
  for (int part = 0; part < parts; ++part)
    for (const char* who : {"A", "B", "C"})
      for (int trial = 0; trial < trials; ++trial)
        readings.push_back({part, who, trial, static_cast<double>(*rc::gen::inRange(-20, 21))});
  readings.front().value = 25;  // not all alike
  return readings;
}

Numbers study_numbers(const std::vector<StudyReading>& readings, double tolerance) {
  const Crossed study = crossed(readings).value();
  return numbers(average_and_range(study, tolerance), study_anova(study, tolerance));
}

RC_GTEST_PROP(Invariance, AStudyKnowsNeitherOrderNorOffset, ()) {
  const auto readings = drawn_study();
  auto moved = shuffled(readings);
  const double offset = drawn_offset();
  for (auto& reading : moved) reading.value += offset;
  assert_alike(study_numbers(readings, 10), study_numbers(moved, 10));
}

RC_GTEST_PROP(Invariance, AStudyInAnotherUnitHasTheSameShares, ()) {
  const auto readings = drawn_study();
  auto other = readings;
  for (auto& reading : other) reading.value *= kUnit;
  const auto a = study_anova(crossed(readings).value(), 10), b = study_anova(crossed(other).value(), 10 * kUnit);
  RC_ASSERT(a.best().grr.share.of_total == b.best().grr.share.of_total);
  RC_ASSERT(a.best().grr.share.of_tolerance == b.best().grr.share.of_tolerance);
  RC_ASSERT(a.best().grr.interval.upper * kUnit * kUnit == b.best().grr.interval.upper);
  RC_ASSERT(a.best().categories == b.best().categories);
}

RC_GTEST_PROP(Invariance, AStudysSquaresAddUpAndItsIntervalsAreInOrder, ()) {
  const StudyAnova got = study_anova(crossed(drawn_study()).value());
  assert_alike({got.parts.squares + got.operators.squares + got.interaction.squares + got.repeatability.squares},
               {got.total.squares});
  for (const Components* all : {&got.with_interaction, &got.without})
    for (const Component* c : {&all->ev, &all->av, &all->iv, &all->grr, &all->pv, &all->tv}) {
      RC_ASSERT(0 <= c->interval.lower && c->interval.lower <= c->interval.upper);
      RC_ASSERT(c->computed < 0 || c->interval.holds(c->computed));
    }
}

}  // namespace
}  // namespace tenth::statistics
