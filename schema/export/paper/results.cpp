#include "schema/export/paper/results.hpp"

#include <algorithm>

#include "schema/export/paper/bar.hpp"
#include "schema/export/paper/feature_part.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

std::string couple_words(const FitResult& result) {
  if (result.outside_index == 0) return result.label + ", no mate";
  if (result.label == result.outside_label) return result.label;
  return result.label + " with " + result.outside_label;
}

/// The stage of both sides, and which of them stand at 20 °C.
std::string stages_words(const FitResult& result) {
  const bool same = result.inside_stage == result.outside_stage;
  std::string words = same ? result.inside_stage : result.inside_stage + " / " + result.outside_stage;
  if (result.corrected == Corrected::both) words += ", at 20 °C";
  if (result.corrected == Corrected::inside || result.corrected == Corrected::outside)
    words += ", " + std::string(name(result.corrected)) + " alone at 20 °C";
  return words;
}

std::string asked_words(const Fit& fit, Unit unit) {
  std::string asked =
      heading(fit.inside) + " less " + spaced(fit.outside) + ". Asked for: " + limits_words(fit.limits, unit);
  if (fit.target) asked += ", target " + whole_figure(fit.target, unit) + " (small triangle)";
  if (fit.judge == JudgeBy::mean) asked += "; judged by the mean";
  return asked + ".";
}

Part table_part(const std::string& title, const std::string& asked, std::vector<Column> columns,
                std::vector<Cells> rows) {
  if (rows.empty()) return {title, {}};
  return {title, {said(asked, Tone::asked), Table{Density::figures, std::move(columns), std::move(rows)}}};
}

Part fit_part(const Results& results, const Fit& fit, Unit unit) {
  std::vector<Cells> rows;
  for (const FitResult& result : results.report.fits)
    if (result.fit == fit.name)
      rows.push_back({couple_words(result), figure(result.min, unit), figure(result.mean, unit),
                      figure(result.max, unit), bar({result.min, result.mean, result.max}, fit.limits, fit.target),
                      stages_words(result), mark(result.verdict)});
  return table_part(heading(fit.name), asked_words(fit, unit),
                    {{"No."},
                     {"least", Manner::number},
                     {"mean", Manner::number},
                     {"greatest", Manner::number},
                     {"against the limits", Manner::picture},
                     {"stage"},
                     {"verdict"}},
                    std::move(rows));
}

Part spreads_part(const std::vector<const SpreadResult*>& spreads, Unit unit) {
  std::vector<Cells> rows;
  for (const SpreadResult* spread : spreads)
    rows.push_back({heading(spread->feature), figure(spread->spread, unit), whole_figure(spread->limit, unit),
                    mark(spread->verdict)});
  return table_part("Spreads", "How far parts that should be alike differ from one another.",
                    {{"feature"}, {"spread", Manner::number}, {"at most"}, {"verdict"}}, std::move(rows));
}

Part checks_part(const Results& results, const std::vector<const CheckResult*>& checks) {
  std::vector<Cells> rows;
  for (const CheckResult* check : checks) {
    const Feature* feature = results.engine.spec->find(check->feature);
    const std::string number = feature && feature->count() == 1 ? "" : " " + check->label;
    rows.push_back({heading(check->feature) + number, check->answer ? std::string(name(*check->answer)) : std::string(),
                    check->note, mark(check->verdict)});
  }
  return table_part("Checks", "What is no number, answered by the builder.",
                    {{"check"}, {"answer", Manner::number}, {"note", Manner::note}, {"verdict"}}, std::move(rows));
}

bool takes_part(const std::set<std::string>* only, const std::string& feature) {
  return only == nullptr || only->contains(feature);
}

template <class Result>
std::vector<const Result*> chosen(const std::vector<Result>& all, const std::set<std::string>* only) {
  std::vector<const Result*> result;
  for (const Result& item : all)
    if (takes_part(only, item.feature)) result.push_back(&item);
  return result;
}

}  // namespace

Results results_of(const Engine& engine) {
  Results results{engine, judge(engine), counting(engine), outlying(engine), {}};
  results.returned = returned(engine, results.counts);
  return results;
}

std::set<std::string> reworked(const Engine& engine) {
  std::set<std::string> features;
  for (const auto& [feature, stages] : engine.stages)
    if (std::any_of(stages.begin(), stages.end(), [](const Stage& stage) { return stage.entry != 0; }))
      features.insert(feature);
  for (const auto& [where, entries] : engine.replaced) features.insert(where.first);
  return features;
}

Engine as_found(const Engine& engine) {
  Engine found = engine;
  const std::set<std::string> later = reworked(engine);
  std::erase_if(found.answers, [&](const auto& answer) { return later.contains(answer.first.first); });
  std::erase_if(found.readings, [&](const Reading& reading) {
    if (!reading.place) return false;
    const auto other = engine.replaced.find({reading.place->feature, reading.place->index});
    return other != engine.replaced.end() && reading.seq > other->second.front();
  });
  found.replaced.clear();
  found.mates.clear();
  found.sent.clear();
  found.stages.clear();
  return found;
}

std::vector<Part> results_parts(const Results& results, const std::set<std::string>* only) {
  const Spec& spec = *results.engine.spec;
  std::vector<Part> parts;
  for (const Feature& feature : spec.features)
    if (takes_part(only, feature.name)) parts.push_back(feature_part(results, feature));
  for (const Fit& fit : spec.fits)
    if (takes_part(only, fit.inside) || takes_part(only, fit.outside))
      parts.push_back(fit_part(results, fit, spec.unit));
  parts.push_back(spreads_part(chosen(results.report.spreads, only), spec.unit));
  parts.push_back(checks_part(results, chosen(results.report.checks, only)));
  std::erase_if(parts, [](const Part& part) { return part.blocks.empty(); });
  return parts;
}

}  // namespace tenth::paper
