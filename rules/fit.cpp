#include "rules/fit.hpp"

#include <algorithm>

#include "rules/budget.hpp"
#include "rules/figure.hpp"
#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

using Words = std::vector<std::string>;

bool chosen(const Words& names, const std::string& name) {
  return names.empty() || std::ranges::find(names, name) != names.end();
}

std::vector<Place> chosen_places(const Feature& feature, int index, const Words& levels, const Words& axes) {
  std::vector<Place> places = places_of(feature, index);
  std::erase_if(places, [&](const Place& place) { return !chosen(levels, place.level) || !chosen(axes, place.axis); });
  return places;
}

std::optional<Length> minus(std::optional<Length> a, std::optional<Length> b) {
  if (!a || !b) return std::nullopt;
  return *a - *b;
}

/// By extremes, more readings can only lower the minimum and raise the maximum: what is out stays out.
void hold_limits(Findings& findings, const FitResult& result, JudgeBy by, bool complete) {
  const bool means = by == JudgeBy::mean;
  const Figure low{means ? result.mean : result.min, complete, means};
  const Figure high{means ? result.mean : result.max, complete, means};
  hold(findings, "clearance", low, result.lower, Side::lower, result.uncertainty);
  hold(findings, "clearance", high, result.upper, Side::upper, result.uncertainty);
}

/// Of a complete fit only: part of the readings would promise too much.
std::optional<double> probability(const FitResult& result, const Fit& fit) {
  if (!result.uncertainty || !fit.limits.any()) return std::nullopt;
  if (fit.judge == JudgeBy::mean) return conforming(*result.mean, fit.limits, *result.uncertainty);
  return std::min(conforming(*result.min, fit.limits, *result.uncertainty),
                  conforming(*result.max, fit.limits, *result.uncertainty));
}

Corrected corrected(const Sample& inside, const Sample& outside) {
  if (inside.corrected) return outside.corrected ? Corrected::both : Corrected::inside;
  return outside.corrected ? Corrected::outside : Corrected::none;
}

}  // namespace

FitPlaces places_of_fit(const Spec& spec, const Fit& fit, const Couple& couple) {
  const Words outside_levels = couple.outside_level.empty() ? fit.outside_levels : Words{couple.outside_level};
  FitPlaces places;
  places.inside = chosen_places(*spec.find(fit.inside), couple.inside_index, fit.inside_levels, fit.inside_axes);
  if (couple.outside_index > 0)
    places.outside = chosen_places(*spec.find(fit.outside), couple.outside_index, outside_levels, fit.outside_axes);
  return places;
}

FitResult judge_fit(const Engine& engine, const CountingMap& counts, const Fit& fit, const Couple& couple) {
  const FitPlaces places = places_of_fit(*engine.spec, fit, couple);
  const Sample inside = sample(counts, places.inside), outside = sample(counts, places.outside);
  FitResult result;
  result.fit = fit.name;
  result.index = couple.inside_index;
  result.outside_index = couple.outside_index;
  result.label = label_of(*engine.spec->find(fit.inside), couple.inside_index);
  if (couple.outside_index > 0) result.outside_label = label_of(*engine.spec->find(fit.outside), couple.outside_index);
  result.inside_stage = stage_of(engine, fit.inside).name;
  result.outside_stage = stage_of(engine, fit.outside).name;
  result.min = minus(inside.smallest(), outside.largest());
  result.mean = minus(inside.mean(), outside.mean());
  result.max = minus(inside.largest(), outside.smallest());
  result.lower = fit.limits.lower;
  result.upper = fit.limits.upper;
  result.target = fit.target;
  result.corrected = corrected(inside, outside);
  result.uncertainty = expanded(budget_of(*engine.spec, fit, inside, outside));
  const bool complete = inside.complete() && outside.complete();
  if (complete) result.probability = probability(result, fit);
  Findings findings;
  hold_limits(findings, result, fit.judge, complete);
  hold_setup(findings, engine, *engine.spec->find(fit.inside));
  hold_setup(findings, engine, *engine.spec->find(fit.outside));
  result.verdict = findings.verdict;
  result.reasons = std::move(findings.reasons);
  return result;
}

}  // namespace tenth
