#include "schema/wire/study_view.hpp"

#include <algorithm>

#include "rules/statistics/study.hpp"
#include "schema/wire/number_json.hpp"

namespace tenth {
namespace {

using statistics::Component;
using statistics::Components;
using statistics::Share;
using statistics::Source;

/// The kept readings of a study, the last of each turn, as far as they were taken by the operator that it asks for.
struct Taken {
  std::vector<statistics::StudyReading> readings;
  std::vector<std::size_t> by_others;  ///< turns
};

Taken taken(const Engine& engine, const Study& study) {
  std::map<std::size_t, const Reading*> last;
  for (const Reading& reading : engine.readings)
    if (reading.study && reading.study->study == study.name && reading.state == State::kept && reading.size)
      last[reading.study->turn] = &reading;
  Taken taken;
  for (const auto& [turn, reading] : last) {
    const StudyTurn& asked = study.order.at(turn);
    if (reading->operator_name == asked.by)
      taken.readings.push_back({asked.part, asked.by, asked.trial, statistics::millimetres(*reading->size)});
    else
      taken.by_others.push_back(turn);
  }
  return taken;
}

Json share_json(const Share& share) {
  return {{"sigma_mm", estimated_mm(share.sigma)},
          {"of_total", estimated(share.of_total)},
          {"of_tolerance", estimated(share.of_tolerance)}};
}

Json component_json(const Component& component) {
  Json json = share_json(component.share);
  json["lower_mm"] = estimated_mm(std::sqrt(component.interval.lower));
  json["upper_mm"] = estimated_mm(std::sqrt(component.interval.upper));
  return json;
}

Json source_json(const Source& source) {
  return {{"freedom", estimated(source.freedom)},
          {"squares_mm2", source.squares},
          {"f", estimated(source.f)},
          {"p", estimated(source.p)}};
}

Json ranges_json(const statistics::AverageAndRange& result) {
  Json wide = Json::array();
  for (const auto& cell : result.wide)
    wide.push_back({{"part", cell.part}, {"operator", cell.operator_name}, {"range_mm", estimated_mm(cell.range)}});
  return {{"repeatability", share_json(result.ev)},
          {"operators", share_json(result.av)},
          {"gauge", share_json(result.grr)},
          {"parts", share_json(result.pv)},
          {"total", share_json(result.tv)},
          {"categories", estimated(result.categories)},
          {"mean_range_mm", estimated_mm(result.mean_range)},
          {"range_limit_mm", estimated_mm(result.range_limit)},
          {"wide", wide}};
}

Json model_json(const Components& model, const statistics::StudyAnova& anova) {
  return {{"repeatability", component_json(model.ev)},
          {"operators", component_json(model.av)},
          {"interaction", component_json(model.iv)},
          {"gauge", component_json(model.grr)},
          {"parts", component_json(model.pv)},
          {"total", component_json(model.tv)},
          {"categories", estimated(model.categories)},
          {"sources",
           {{"parts", source_json(model.parts_test)},
            {"operators", source_json(model.operators_test)},
            {"interaction", source_json(anova.interaction)},
            {"repeatability", source_json(anova.repeatability)},
            {"total", source_json(anova.total)}}}};
}

/// The model to use, and both beside.
Json anova_json(const statistics::StudyAnova& anova) {
  Json json = model_json(anova.best(), anova);
  json["pooled"] = anova.pool;
  json["models"] = {{"interaction", model_json(anova.with_interaction, anova)},
                    {"pooled", model_json(anova.without, anova)}};
  return json;
}

std::string_view word(statistics::Adequacy adequacy) {
  switch (adequacy) {
    case statistics::Adequacy::good:
      return "good";
    case statistics::Adequacy::usable:
      return "usable";
    case statistics::Adequacy::too_coarse:
      break;
  }
  return "too_coarse";
}

/// Each limit that this gauge has to tell apart, and how many times its uncertainty fits into it.
class Adequacies {
 public:
  explicit Adequacies(double uncertainty_mm) : uncertainty_mm_(uncertainty_mm) {}

  void add(const std::string& subject, const std::string& what, std::optional<Length> width) {
    if (!width) return;
    const auto ratio = statistics::limit_ratio(statistics::millimetres(*width), uncertainty_mm_);
    if (!ratio) return;
    json.push_back({{"subject", subject},
                    {"what", what},
                    {"width_mm", mm(*width)},
                    {"ratio", estimated(ratio->ratio)},
                    {"verdict", word(ratio->adequacy)}});
  }

  Json json = Json::array();

 private:
  double uncertainty_mm_;
};

std::optional<Length> width_of(const Limits& limits) {
  if (!limits.lower || !limits.upper) return std::nullopt;
  return *limits.upper - *limits.lower;
}

Json adequacy_json(const Spec& spec, const std::string& feature_name, double uncertainty_mm) {
  Adequacies all(uncertainty_mm);
  const Feature& feature = *spec.find(feature_name);
  all.add(feature.name, "size", width_of(feature.limits));
  all.add(feature.name, "out_of_round", feature.out_of_round);
  all.add(feature.name, "taper", feature.taper);
  for (const Fit& fit : spec.fits)
    if (fit.inside == feature.name || fit.outside == feature.name) all.add(fit.name, "clearance", width_of(fit.limits));
  for (const Spread& spread : spec.spreads)
    if (spread.feature == feature.name) all.add(feature.name, "spread", spread.limit);
  return all.json;
}

}  // namespace

Json study_json(const Bench& bench, const Study& study) {
  const Engine& engine = bench.engines.at(study.engine);
  const Taken found = taken(engine, study);
  Json json = {{"study", study.name},
               {"engine", study.engine},
               {"gauge", study.gauge},
               {"feature", study.feature},
               {"parts", study.parts},
               {"operators", study.operators},
               {"trials", study.trials},
               {"tolerance_mm", mm(study.tolerance)},
               {"done", found.readings.size()},
               {"of", study.order.size()},
               {"unit", name(engine.spec->unit)},
               {"by_others", found.by_others},
               {"average_and_range", nullptr},
               {"anova", nullptr},
               {"uncertainty_mm", nullptr},
               {"uncertainty_from", nullptr},
               {"adequacy", Json::array()},
               {"why", nullptr}};
  if (found.readings.size() < study.order.size()) {
    json["why"] = std::to_string(study.order.size() - found.readings.size()) + " readings are still to be taken";
    return json;
  }
  const auto crossed = statistics::crossed(found.readings);
  if (!crossed) {
    json["why"] = crossed.error().message;
    return json;
  }
  std::optional<double> tolerance;
  if (study.tolerance) tolerance = statistics::millimetres(*study.tolerance);
  const statistics::StudyAnova anova = statistics::study_anova(*crossed, tolerance);
  json["average_and_range"] = ranges_json(statistics::average_and_range(*crossed, tolerance));
  json["anova"] = anova_json(anova);
  const auto& stated = bench.gauges.at(study.gauge).uncertainty;
  const double uncertainty = stated ? statistics::millimetres(*stated) : 2 * anova.best().grr.share.sigma;
  json["uncertainty_mm"] = estimated_mm(uncertainty);
  json["uncertainty_from"] =
      stated ? "stated" : "study";  // of the study: twice its standard deviation, without the master
  json["adequacy"] = adequacy_json(*engine.spec, study.feature, uncertainty);
  return json;
}

Json master_study_json(const Bench& bench, const MasterStudy& study) {
  const std::size_t done = study.shown.size();
  return {{"event", "study"},
          {"study", study.name},
          {"what", study.linearity ? "linearity" : "bias"},
          {"gauge", study.gauge},
          {"unit", name(bench.gauges.at(study.gauge).unit.value_or(Unit::mm))},
          {"master_mm", done == 0 ? Json(nullptr) : mm(study.order[done - 1])},
          {"shown_mm", done == 0 ? Json(nullptr) : mm(study.shown[done - 1])},
          {"done", done},
          {"of", study.order.size()},
          {"next_mm", study.whole() ? Json(nullptr) : mm(study.order[done])}};
}

}  // namespace tenth
