#include "schema/export/html/results.hpp"

#include <algorithm>

#include "schema/export/html/bar.hpp"
#include "schema/export/html/feature_section.hpp"
#include "schema/export/html/markup.hpp"
#include "schema/export/html/words.hpp"

namespace tenth::page {
namespace {

std::string couple_words(const FitResult& result) {
  if (result.outside_index == 0) return escaped(result.label + ", no mate");
  if (result.label == result.outside_label) return escaped(result.label);
  return escaped(result.label + " with " + result.outside_label);
}

/// The stage of both sides, and which of them stand at 20 °C.
std::string stages_words(const FitResult& result) {
  const bool same = result.inside_stage == result.outside_stage;
  std::string words = same ? result.inside_stage : result.inside_stage + " / " + result.outside_stage;
  if (result.corrected == Corrected::both) words += ", at 20 °C";
  if (result.corrected == Corrected::inside || result.corrected == Corrected::outside)
    words += ", " + std::string(name(result.corrected)) + " alone at 20 °C";
  return escaped(words);
}

std::string asked_words(const Fit& fit, Unit unit) {
  std::string asked =
      heading(fit.inside) + " less " + spaced(fit.outside) + ". Asked for: " + limits_words(fit.limits, unit);
  if (fit.target) asked += ", target " + figure(fit.target, unit) + " (small triangle)";
  if (fit.judge == JudgeBy::mean) asked += "; judged by the mean";
  return element("p class=\"asked\"", escaped(asked + "."));
}

std::string section(std::string_view title, const std::string& asked, const std::string& content) {
  if (content.empty()) return "";
  return element("section class=\"part\"", element("h3", escaped(title)) + asked + content);
}

std::string fit_section(const Results& results, const Fit& fit, Unit unit) {
  std::vector<Cells> rows;
  for (const FitResult& result : results.report.fits)
    if (result.fit == fit.name)
      rows.push_back({couple_words(result), figure(result.min, unit), figure(result.mean, unit),
                      figure(result.max, unit), bar({result.min, result.mean, result.max}, fit.limits, fit.target),
                      stages_words(result), mark(result.verdict)});
  return section(heading(fit.name), asked_words(fit, unit),
                 table("figures",
                       {{"No.", ""},
                        {"least", "number"},
                        {"mean", "number"},
                        {"greatest", "number"},
                        {"against the limits", "wide"},
                        {"stage", ""},
                        {"verdict", ""}},
                       rows));
}

std::string spreads_section(const std::vector<const SpreadResult*>& spreads, Unit unit) {
  std::vector<Cells> rows;
  for (const SpreadResult* spread : spreads)
    rows.push_back({escaped(heading(spread->feature)), figure(spread->spread, unit), figure(spread->limit, unit),
                    mark(spread->verdict)});
  return section("Spreads", element("p class=\"asked\"", "How far parts that should be alike differ from one another."),
                 table("figures", {{"feature", ""}, {"spread", "number"}, {"at most", ""}, {"verdict", ""}}, rows));
}

std::string checks_section(const Results& results, const std::vector<const CheckResult*>& checks) {
  std::vector<Cells> rows;
  for (const CheckResult* check : checks) {
    const Feature* feature = results.engine.spec->find(check->feature);
    const std::string number = feature && feature->count() == 1 ? "" : " " + check->label;
    rows.push_back({escaped(heading(check->feature) + number), check->answer ? std::string(name(*check->answer)) : "",
                    escaped(check->note), mark(check->verdict)});
  }
  return section("Checks", "",
                 table("figures", {{"check", ""}, {"answer", "number"}, {"note", "note"}, {"verdict", ""}}, rows));
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
  return {engine, judge(engine), counting(engine)};
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
  found.stages.clear();
  return found;
}

std::string results_markup(const Results& results, const std::set<std::string>* only) {
  const Spec& spec = *results.engine.spec;
  std::string out;
  for (const Feature& feature : spec.features)
    if (takes_part(only, feature.name)) out += feature_section(results, feature);
  for (const Fit& fit : spec.fits)
    if (takes_part(only, fit.inside) || takes_part(only, fit.outside)) out += fit_section(results, fit, spec.unit);
  out += spreads_section(chosen(results.report.spreads, only), spec.unit);
  return out + checks_section(results, chosen(results.report.checks, only));
}

}  // namespace tenth::page
