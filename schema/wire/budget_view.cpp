#include "schema/wire/budget_view.hpp"

#include <algorithm>

#include "rules/fit.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

/// The gauge, among those whose readings count here, that states this uncertainty.
Json gauge_stating(const Engine& engine, std::span<const Place> places, Length uncertainty) {
  const CountingMap counts = counting(engine);
  for (const Place& place : places) {
    const auto here = counts.find(place);
    if (here == counts.end()) continue;
    for (const Reading& reading : engine.readings)
      if (reading.uncertainty == uncertainty &&
          std::ranges::find(here->second.seqs, reading.seq) != here->second.seqs.end())
        return or_null(reading.gauge);
  }
  return nullptr;
}

Json term_json(const Engine& engine, const Fit& fit, const FitPlaces& places, const BudgetTerm& term) {
  const std::string& feature = term.inside ? fit.inside : fit.outside;
  Json json = {{"side", term.inside ? "inside" : "outside"}, {"feature", feature}, {"value_mm", mm(term.value)}};
  if (term.source == BudgetTerm::Source::gauge) {
    json["source"] = "gauge";
    json["gauge"] = gauge_stating(engine, term.inside ? places.inside : places.outside, term.value);
    return json;
  }
  json["source"] = "temperature";
  json["material"] = engine.spec->find(feature)->material;
  json["expansion"] = in_millionths(term.expansion);
  json["mean_mm"] = mm(term.mean);
  json["within_k"] = in_kelvins(term.within);
  return json;
}

Json settling_json(const Settling& settling, const Budget& budget) {
  const BudgetTerm& term = budget.terms[settling.term];
  const bool gauge = term.source == BudgetTerm::Source::gauge;
  return {{"side", term.inside ? "inside" : "outside"},
          {"source", gauge ? "gauge" : "temperature"},
          {"at_most_mm", mm(settling.at_most)},
          {"within_k", gauge ? Json(nullptr) : Json(in_kelvins(settling.within))}};
}

}  // namespace

Json budget_json(const Engine& engine, const Fit& fit, const Couple& couple) {
  const FitBudget found = fit_budget(engine, fit, couple);
  const FitPlaces places = places_of_fit(*engine.spec, fit, couple);
  Json json = fit_json(found.result);
  json["unit"] = name(engine.spec->unit);
  json["terms"] = Json::array();
  for (const BudgetTerm& term : found.budget.terms) json["terms"].push_back(term_json(engine, fit, places, term));
  json["room_mm"] = mm(found.room);
  json["settling"] = Json::array();
  for (const Settling& one : found.settling) json["settling"].push_back(settling_json(one, found.budget));
  return json;
}

}  // namespace tenth
