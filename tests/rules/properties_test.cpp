#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <numeric>

#include "tests/rules/workpiece.hpp"

namespace tenth {
namespace {

using testing::Workpiece;

constexpr std::size_t kPlaces = 12;  // two levels by two axes of bore 1, bore 2 and the piston in bore 1

/// An engine with everything that can be judged, whose sizes and limits are drawn at random near to each other.
struct Drawn {
  std::vector<std::int64_t> sizes;                  ///< pm past the offset, by place
  std::vector<std::optional<std::int64_t>> unsure;  ///< U by place, in pm
  std::vector<std::size_t> order;                   ///< in which the places are measured
  std::int64_t lower = 0, width = 0;
  OutOfRoundBy out_of_round_by{};
  TaperBy taper_by{};
  JudgeBy judge_by{};
  SpreadBy spread_by{};
};

Drawn draw(std::size_t readings) {
  const auto size = rc::gen::inRange<std::int64_t>(0, 60);
  Drawn drawn;
  drawn.sizes = *rc::gen::container<std::vector<std::int64_t>>(kPlaces, size);
  drawn.unsure.assign(kPlaces, *rc::gen::inRange<std::int64_t>(0, 10));
  drawn.order.resize(kPlaces);
  std::iota(drawn.order.begin(), drawn.order.end(), 0U);
  for (std::size_t i = kPlaces - 1; i > 0; --i)
    std::swap(drawn.order[i], drawn.order[*rc::gen::inRange<std::size_t>(0, i + 1)]);
  drawn.order.resize(readings);
  drawn.lower = *size;
  drawn.width = *size;
  drawn.out_of_round_by = static_cast<OutOfRoundBy>(*rc::gen::inRange(0, 2));
  drawn.taper_by = static_cast<TaperBy>(*rc::gen::inRange(0, 4));
  drawn.judge_by = static_cast<JudgeBy>(*rc::gen::inRange(0, 2));
  drawn.spread_by = static_cast<SpreadBy>(*rc::gen::inRange(0, 2));
  return drawn;
}

const char* const kSpots[] = {"/top/x", "/top/y", "/low/x", "/low/y"};

std::string place_name(std::size_t place) {
  const char* const parts[] = {"bore/1", "bore/2", "piston/1"};
  return std::string(parts[place / 4]) + kSpots[place % 4];
}

void add_feature(Workpiece& work, const char* name, Kind kind, int count, const Drawn& drawn, Length offset) {
  const Length lower = offset + Length::from_pm(drawn.lower);
  Feature& feature = work.feature(name, kind, {lower, lower + Length::from_pm(drawn.width)}, count);
  feature.levels = {"top", "low"};
  feature.axes = {"x", "y"};
  feature.out_of_round = feature.taper = Length::from_pm(drawn.width);
  feature.out_of_round_by = drawn.out_of_round_by;
  feature.taper_by = drawn.taper_by;
}

Workpiece make(const Drawn& drawn, Length offset = Length::from_mm(83)) {
  Workpiece work;
  add_feature(work, "bore", Kind::inside, 2, drawn, offset);
  add_feature(work, "piston", Kind::outside, 1, drawn, offset);
  const Length least = Length::from_pm(drawn.lower - 60), wide = Length::from_pm(drawn.width);
  Fit& fit = work.fit("clearance", "bore", "piston", {least, least + wide});
  fit.judge = drawn.judge_by;
  fit.couples.resize(1);
  work.spec.spreads.push_back({"bore", wide, drawn.spread_by});
  for (const std::size_t place : drawn.order) {
    Reading& reading = work.read(place_name(place), offset + Length::from_pm(drawn.sizes[place]));
    if (drawn.unsure[place]) reading.uncertainty = Length::from_pm(*drawn.unsure[place]);
  }
  return work;
}

using Verdicts = std::vector<std::optional<Verdict>>;

/// Features, then the fit, then the spread, then the whole.
Verdicts verdicts(const Report& report) {
  Verdicts all;
  for (const auto& result : report.features) all.push_back(result.verdict);
  for (const auto& result : report.fits) all.push_back(result.verdict);
  for (const auto& result : report.spreads) all.push_back(result.verdict);
  all.push_back(report.verdict);
  return all;
}

Report report_of(const Drawn& drawn, Length offset = Length::from_mm(83)) {
  return judge(make(drawn, offset).done());
}

using Figures = std::vector<std::optional<Length>>;

/// Figures that lie at the sizes themselves, and those that are differences of sizes.
Figures sizes(const Report& report) {
  Figures all;
  for (const auto& result : report.features) all.insert(all.end(), {result.mean, result.min, result.max});
  return all;
}
Figures differences(const Report& report) {
  Figures all;
  for (const auto& result : report.features) all.insert(all.end(), {result.out_of_round, result.taper});
  for (const auto& result : report.fits) all.insert(all.end(), {result.min, result.mean, result.max});
  for (const auto& result : report.spreads) all.push_back(result.spread);
  return all;
}

std::size_t draw_count() {
  return *rc::gen::inRange<std::size_t>(0, kPlaces + 1);
}

RC_GTEST_PROP(Judging, DoesNotDependOnTheOrderOfTheReadings, ()) {
  Drawn drawn = draw(draw_count());
  const Report first = report_of(drawn);
  std::ranges::reverse(drawn.order);
  const Report second = report_of(drawn);
  RC_ASSERT(verdicts(first) == verdicts(second));
  RC_ASSERT(sizes(first) == sizes(second));
  RC_ASSERT(differences(first) == differences(second));
}

RC_GTEST_PROP(Judging, DoesNotDependOnTheUnitOfTheSpec, ()) {
  const Drawn drawn = draw(draw_count());
  Workpiece work = make(drawn);
  const Verdicts in_millimetres = verdicts(judge(work.done()));
  work.spec.unit = Unit::in;
  RC_ASSERT(verdicts(judge(work.done())) == in_millimetres);
}

/// Limits and readings typed in inches or in the millimetres that are exactly the same.
RC_GTEST_PROP(Judging, IsTheSameForALengthTypedInInchesOrMillimetres, ()) {
  const auto verdict = [](Unit unit, std::int64_t size, std::int64_t lower, std::int64_t upper) {
    const auto typed = [unit](std::int64_t tenths) {
      const Length length = Length::from_pm(tenths * kInch.pm() / 10'000);
      return parse_length(unit == Unit::in ? fixed(length, Unit::in, 4) : exact_mm(length), unit).value();
    };
    Workpiece work;
    work.feature("journal", Kind::outside, {typed(lower), typed(upper)});
    work.read("journal/1", typed(size));
    return work.judged("journal").verdict;
  };
  const auto size = *rc::gen::inRange<std::int64_t>(27'480, 27'520);
  const auto lower = *rc::gen::inRange<std::int64_t>(27'480, 27'500);
  const auto upper = *rc::gen::inRange<std::int64_t>(27'500, 27'520);
  const Verdict expected = lower <= size && size <= upper ? Verdict::in : Verdict::out;
  RC_ASSERT(verdict(Unit::in, size, lower, upper) == expected);
  RC_ASSERT(verdict(Unit::mm, size, lower, upper) == expected);
}

RC_GTEST_PROP(Judging, ACommonOffsetShiftsSizesAndKeepsDifferencesAndVerdicts, ()) {
  const Drawn drawn = draw(draw_count());
  const Length base = Length::from_mm(83);
  const Length offset = Length::from_pm(*rc::gen::inRange<std::int64_t>(-1'000'000'000, 1'000'000'000));
  const Report here = report_of(drawn, base), there = report_of(drawn, base + offset);
  RC_ASSERT(verdicts(here) == verdicts(there));
  RC_ASSERT(differences(here) == differences(there));
  Figures shifted = sizes(here);
  for (auto& size : shifted)
    if (size) size = *size + offset;
  RC_ASSERT(shifted == sizes(there));
}

RC_GTEST_PROP(Judging, MoreUncertaintyNeverTurnsOutIntoInNorInIntoOut, ()) {
  Drawn drawn = draw(draw_count());
  const Verdicts surer = verdicts(report_of(drawn));
  for (auto& unsure : drawn.unsure) unsure = *unsure + *rc::gen::inRange<std::int64_t>(0, 30);
  const Verdicts less_sure = verdicts(report_of(drawn));
  for (std::size_t i = 0; i < surer.size(); ++i) {
    RC_ASSERT(!(surer[i] == Verdict::out && less_sure[i] == Verdict::in));
    RC_ASSERT(!(surer[i] == Verdict::in && less_sure[i] == Verdict::out));
    RC_ASSERT(!(surer[i] == Verdict::doubtful && less_sure[i] != Verdict::doubtful));
  }
}

/// With one uncertainty for all readings: what is out from part of them stays out whatever the rest are.
RC_GTEST_PROP(Judging, WhatIsOutEarlyStaysOut, ()) {
  Drawn drawn = draw(kPlaces);
  const std::size_t first = draw_count();
  const Verdicts whole = verdicts(report_of(drawn));
  drawn.order.resize(first);
  const Verdicts part = verdicts(report_of(drawn));
  for (std::size_t i = 0; i < part.size(); ++i)
    if (part[i] == Verdict::out) RC_ASSERT(whole[i] == Verdict::out);
}

RC_GTEST_PROP(Judging, NothingIsInFromPartOfTheReadings, ()) {
  const Report report = report_of(draw(*rc::gen::inRange<std::size_t>(0, kPlaces)));
  RC_ASSERT(report.verdict == Verdict::incomplete || report.verdict == Verdict::out);
}

/// The other way round: with all readings there, what waits is judged.
RC_GTEST_PROP(Judging, NothingIsIncompleteOnceAllIsRead, ()) {
  for (const auto& verdict : verdicts(report_of(draw(kPlaces)))) RC_ASSERT(verdict != Verdict::incomplete);
}

RC_GTEST_PROP(Judging, AVoidLeavesThingsAsTheyWereBefore, ()) {
  const Drawn drawn = draw(draw_count());
  Workpiece work = make(drawn);
  const Report before = judge(work.done());
  work.read(place_name(*rc::gen::inRange<std::size_t>(0, kPlaces)), "83").state = State::voided;
  const Report after = judge(work.done());
  RC_ASSERT(verdicts(before) == verdicts(after));
  RC_ASSERT(sizes(before) == sizes(after));
}

}  // namespace
}  // namespace tenth
