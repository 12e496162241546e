#include <algorithm>
#include <set>

#include "rules/joined.hpp"
#include "schema/export/paper/shop_parts.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

/// The unit that the spec is not in is given a place finer, so that rounding moves no limit by more than a gauge shows.
Cells in_both(const std::string& what, const std::optional<Length>& length, Unit unit) {
  const auto shown = [&](Unit wanted) {
    if (!length) return std::string();
    return wanted == unit ? whole_figure(length, wanted) : fixed(*length, wanted, usual_places(wanted) + 1);
  };
  return {what, shown(Unit::in), shown(Unit::mm)};
}

/// What this shop was asked for comes first; the limits of the spec hold besides.
Table asked_table(const Engine& engine, const Feature& feature) {
  const Unit unit = engine.spec->unit;
  Table table{Density::figures, {{"finished"}, {"in inches", Manner::number}, {"in millimetres", Manner::number}}, {}};
  const Limits& limits = feature.limits;
  const auto add = [&](const char* what, const std::optional<Length>& length) {
    if (length) table.rows.push_back(in_both(what, length, unit));
  };
  if (is_away(engine, feature.name) && engine.sent.at(feature.name).size) {
    add("asked of the shop", engine.sent.at(feature.name).size->size);
    add("plus or minus", engine.sent.at(feature.name).size->within);
  }
  add("not under", limits.lower);
  add("not over", limits.upper);
  if (limits.lower && limits.upper) add("tolerance", *limits.upper - *limits.lower);
  add("out of round, at most", feature.out_of_round);
  add("taper, at most", feature.taper);
  return table;
}

std::string gauges_at(const Engine& engine, const CountingMap& counts, const FeatureResult& result) {
  std::set<std::string> used;
  for (const auto& [place, counting] : counts) {
    if (place.feature != result.feature || place.index != result.index) continue;
    for (const Reading& reading : engine.readings)
      if (std::ranges::find(counting.seqs, reading.seq) != counting.seqs.end()) used.insert(gauge_words(reading));
  }
  return joined(used);
}

Table measured_table(const Results& results, const Feature& feature) {
  const Unit unit = results.engine.spec->unit;
  Table table{Density::form,
              {{"No."},
               {"least"},
               {"mean"},
               {"greatest"},
               {"out of round"},
               {"taper"},
               {"stage"},
               {"gauge"},
               {"verdict"},
               {"size after", Manner::hand},
               {"signed", Manner::hand}},
              {}};
  for (const FeatureResult& r : results.report.features)
    if (r.feature == feature.name)
      table.rows.push_back({r.label,
                            whole_figure(r.min, unit),
                            figure(r.mean, unit),
                            whole_figure(r.max, unit),
                            whole_figure(r.out_of_round, unit),
                            whole_figure(r.taper, unit),
                            r.stage + (r.corrected ? ", at 20 °C" : ""),
                            gauges_at(results.engine, results.counts, r),
                            mark(r.verdict),
                            {},
                            {}});
  return table;
}

/// What the part must go with afterwards.
std::string mates_words(const Spec& spec, const Feature& feature) {
  std::string words;
  for (const Fit& fit : spec.fits) {
    if (fit.inside != feature.name && fit.outside != feature.name) continue;
    const std::string& mate = fit.inside == feature.name ? fit.outside : fit.inside;
    words += " Goes with " + spaced(mate) + ": " + spaced(fit.name) + " " + limits_words(fit.limits, spec.unit) + ".";
  }
  return words;
}

}  // namespace

Part sizes_part(const Results& results, const Feature& feature) {
  const Spec& spec = *results.engine.spec;
  std::string words = feature.material.empty() ? "" : "Material: " + feature.material + ".";
  if (!feature.where.empty()) words += " Measured: " + feature.where + ".";
  if (!feature.source.empty()) words += " Limits from: " + feature.source + ".";
  words += mates_words(spec, feature);
  Part part{heading(feature.name), {}};
  if (!words.empty()) part.blocks.emplace_back(said(words, Tone::asked));
  if (Table asked = asked_table(results.engine, feature); asked.rows.empty())
    part.blocks.emplace_back(said("The spec has no limits for it: ask for the finished size."));
  else
    part.blocks.emplace_back(std::move(asked));
  part.blocks.emplace_back(
      said(std::string("As measured, in ") + (spec.unit == Unit::in ? "inches" : "millimetres") + "; room for after:",
           Tone::asked));
  part.blocks.emplace_back(measured_table(results, feature));
  return part;
}

}  // namespace tenth::paper
