#include "rules/remedies/setup.hpp"

#include <algorithm>

#include "rules/couples.hpp"
#include "rules/fit.hpp"
#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

/// The outside part as large, or as small, as its tolerance allows.
FitResult judged_at(const Setup& setup, const Couple& couple, Length by) {
  CountingMap counts = setup.counts;
  for (const Place& place : places_of(setup.outside(), couple.outside_index))
    if (const auto found = counts.find(place); found != counts.end()) found->second.size = found->second.size + by;
  return judge_fit(*setup.engine, counts, *setup.fit, couple);
}

}  // namespace

Setup setup_of(const Engine& engine, const Fit& fit) {
  return {&engine, &fit, counting(engine), couples_of(engine, fit)};
}

FitResult judged(const Setup& setup, const Couple& couple) {
  FitResult result = judge_fit(*setup.engine, setup.counts, *setup.fit, couple);
  const auto tolerance = setup.tolerance.find(couple.outside_index);
  if (tolerance == setup.tolerance.end()) return result;
  const FitResult tight = judged_at(setup, couple, tolerance->second);
  const FitResult loose = judged_at(setup, couple, -tolerance->second);
  result.min = tight.min;
  result.max = loose.max;
  result.verdict = worst(tight.verdict, loose.verdict);
  result.reasons = tight.verdict >= loose.verdict ? tight.reasons : loose.reasons;
  return result;
}

std::vector<FitResult> judged(const Setup& setup) {
  std::vector<FitResult> results;
  for (const Couple& couple : setup.couples) results.push_back(judged(setup, couple));
  return results;
}

bool complete(const Setup& setup, const Couple& couple) {
  const FitPlaces places = places_of_fit(*setup.engine->spec, *setup.fit, couple);
  const auto counts = [&](const Place& place) { return setup.counts.contains(place); };
  return !places.inside.empty() && !places.outside.empty() && std::ranges::all_of(places.inside, counts) &&
         std::ranges::all_of(places.outside, counts);
}

std::vector<Length> sizes_at(const CountingMap& counts, std::span<const Place> places) {
  std::vector<Length> sizes;
  for (const Place& place : places)
    if (const auto found = counts.find(place); found != counts.end()) sizes.push_back(found->second.size);
  return sizes;
}

std::vector<Length> inside_sizes(const Setup& setup, const Couple& couple) {
  return sizes_at(setup.counts, places_of_fit(*setup.engine->spec, *setup.fit, couple).inside);
}

void grow_inside(Setup& setup, const Couple& couple, Length by, Length unsure) {
  for (const Place& place : places_of(setup.inside(), couple.inside_index))
    if (const auto found = setup.counts.find(place); found != setup.counts.end()) {
      Counting& here = found->second;
      here.size = here.size + by;
      if (unsure > Length()) here.uncertainty = root_sum_of_squares(here.uncertainty.value_or(Length()), unsure);
    }
  if (unsure == Length()) return;
  // An uncertainty of the wall is one of the fit, even where the gauges state none: theirs counts as 0 then.
  for (const Place& place : places_of(setup.outside(), couple.outside_index))
    if (const auto found = setup.counts.find(place); found != setup.counts.end())
      found->second.uncertainty = found->second.uncertainty.value_or(Length());
}

void set_outside(Setup& setup, int outside_index, Length size, Length tolerance) {
  for (const Place& place : places_of(setup.outside(), outside_index)) setup.counts[place].size = size;
  if (tolerance > Length())
    setup.tolerance[outside_index] = tolerance;
  else
    setup.tolerance.erase(outside_index);
}

Setup only(const Setup& setup, const Couple& couple) {
  Setup result{setup.engine, setup.fit, {}, {couple}, setup.tolerance};
  const auto keep = [&](const std::vector<Place>& places) {
    for (const Place& place : places)
      if (const auto found = setup.counts.find(place); found != setup.counts.end()) result.counts.insert(*found);
  };
  keep(places_of(setup.inside(), couple.inside_index));
  if (couple.outside_index > 0) keep(places_of(setup.outside(), couple.outside_index));
  return result;
}

std::optional<Length> aim_of(const Fit& fit) {
  if (fit.target) return fit.target;
  if (!fit.limits.lower || !fit.limits.upper) return std::nullopt;
  return mean(std::vector{*fit.limits.lower, *fit.limits.upper});
}

Length off_target(const Fit& fit, const FitResult& result) {
  if (!result.mean) return {};
  if (const auto aim = aim_of(fit)) return (*result.mean - *aim).magnitude();
  if (fit.limits.lower) return std::max(Length(), *fit.limits.lower - *result.mean);
  if (fit.limits.upper) return std::max(Length(), *result.mean - *fit.limits.upper);
  return {};
}

bool is_bad(std::optional<Verdict> verdict) {
  return verdict == Verdict::out || verdict == Verdict::doubtful;
}

void fill_after(Remedy& remedy, const Setup& setup) {
  remedy.fit = setup.fit->name;
  remedy.after.clear();
  remedy.in = 0;
  remedy.off_target = {};
  for (const FitResult& result : judged(setup)) {
    remedy.after.push_back({result.index, result.min, result.mean, result.max, result.uncertainty, result.verdict});
    remedy.in += result.verdict == Verdict::in ? 1 : 0;
    remedy.off_target = remedy.off_target + off_target(*setup.fit, result);
  }
  remedy.of = static_cast<int>(remedy.after.size());
  remedy.enough = remedy.in == remedy.of;
}

bool better(const Remedy& remedy, const Setup& than) {
  Remedy nothing;
  fill_after(nothing, than);
  return better(remedy, nothing);
}

bool better(const Remedy& a, const Remedy& b) {
  return a.in != b.in ? a.in > b.in : a.off_target < b.off_target;
}

}  // namespace tenth
