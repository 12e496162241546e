#include <algorithm>

#include "rules/remedies/remedy.hpp"
#include "schema/export/paper/gauges.hpp"
#include "schema/export/paper/headline.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/export/paper/results.hpp"
#include "schema/export/paper/rule.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

using Features = std::vector<const Feature*>;

bool is_among(const Features& features, const std::string& name) {
  return std::ranges::find(features, name, &Feature::name) != features.end();
}

bool names(const std::string& text, const std::string& feature_or_fit) {
  return text.find(feature_or_fit) != std::string::npos || text.find(spaced(feature_or_fit)) != std::string::npos;
}

/// A choice is left out only where it names other features and none of these: what names none may be about any.
bool concerns(const Choice& choice, const Spec& spec, const Features& features) {
  bool others = false;
  for (const Feature& feature : spec.features) {
    if (!names(choice.text, feature.name)) continue;
    if (is_among(features, feature.name)) return true;
    others = true;
  }
  for (const Fit& fit : spec.fits) {
    if (!names(choice.text, fit.name)) continue;
    if (is_among(features, fit.inside) || is_among(features, fit.outside)) return true;
    others = true;
  }
  return !others;
}

std::vector<Remedy> advice_on(const Engine& engine, const Features& features) {
  std::vector<Remedy> all = remedies(engine, nullptr).remedies;
  std::erase_if(all, [&](const Remedy& remedy) { return !is_among(features, remedy.feature); });
  return all;
}

Part work_part(const Bench& bench, const Engine& engine, const Features& features) {
  Part part;
  Table chosen{Density::figures, {{"entry"}, {"when (UTC)"}, {"what", Manner::note}, {"why", Manner::note}, {"who"}}, {}};
  for (const Choice& choice : bench.choices)
    if (choice.engine == engine.name && concerns(choice, *engine.spec, features))
      chosen.rows.push_back({std::to_string(choice.seq), short_time(choice.time), Piece{choice.text, Face::bold},
                             choice.reason.value_or(""), choice.who});
  if (chosen.rows.empty())
    part.blocks.emplace_back(said("The ledger holds no decision: ask before anything is taken off."));
  else
    part.blocks.emplace_back(std::move(chosen));
  for (const Remedy& remedy : advice_on(engine, features))
    part.blocks.emplace_back(said("Worked out from the measurements, as advice: " + remedy.text + "."));
  part.blocks.emplace_back(said("Agreed besides, by hand:", Tone::asked));
  part.blocks.emplace_back(
      Table{Density::form, {{"what", Manner::hand}, {"who", Manner::hand}}, std::vector<Cells>(3, Cells(2))});
  return part;
}

/// The unit that the spec is not in is given a place finer, so that rounding moves no limit by more than a gauge shows.
Cells in_both(const std::string& what, const std::optional<Length>& length, Unit unit) {
  const auto shown = [&](Unit wanted) {
    if (!length) return std::string();
    return wanted == unit ? whole_figure(length, wanted) : fixed(*length, wanted, usual_places(wanted) + 1);
  };
  return {what, shown(Unit::in), shown(Unit::mm)};
}

Table asked_table(const Feature& feature, Unit unit) {
  Table table{Density::figures, {{"finished"}, {"in inches", Manner::number}, {"in millimetres", Manner::number}}, {}};
  const Limits& limits = feature.limits;
  const auto add = [&](const char* what, const std::optional<Length>& length) {
    if (length) table.rows.push_back(in_both(what, length, unit));
  };
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
      if (std::ranges::find(counting.seqs, reading.seq) != counting.seqs.end())
        used.insert(reading.gauge.value_or("by hand"));
  }
  std::string out;
  for (const std::string& gauge : used) out += (out.empty() ? "" : ", ") + gauge;
  return out;
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
                            r.stage,
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

Part feature_part(const Results& results, const Feature& feature) {
  const Spec& spec = *results.engine.spec;
  std::string words = feature.material.empty() ? "" : "Material: " + feature.material + ".";
  if (!feature.where.empty()) words += " Measured: " + feature.where + ".";
  if (!feature.source.empty()) words += " Limits from: " + feature.source + ".";
  words += mates_words(spec, feature);
  Part part{heading(feature.name), {}};
  if (!words.empty()) part.blocks.emplace_back(said(words, Tone::asked));
  if (Table asked = asked_table(feature, spec.unit); asked.rows.empty())
    part.blocks.emplace_back(said("The spec has no limits for it: ask for the finished size."));
  else
    part.blocks.emplace_back(std::move(asked));
  part.blocks.emplace_back(
      said(std::string("As measured, in ") + (spec.unit == Unit::in ? "inches" : "millimetres") + "; room for after:",
           Tone::asked));
  part.blocks.emplace_back(measured_table(results, feature));
  return part;
}

/// What must not be touched.
Items leave_alone(const Spec& spec, const Features& features) {
  std::string others;
  for (const Feature& feature : spec.features)
    if (feature.kind != Kind::check && !is_among(features, feature.name))
      others += (others.empty() ? "" : ", ") + spaced(feature.name);
  Items items{{"Work on nothing but what is asked for above, and take off no more."}};
  if (!others.empty()) items.sentences.push_back("Measured, and to keep their sizes: " + others + ".");
  items.sentences.emplace_back("Never brush measured surfaces with wire: it changes their sizes.");
  return items;
}

Items shop_cautions(const Engine& engine, const Features& features) {
  Items items{
      {"Whoever does the work and the maker of the part decide what it can stand: where this sheet and they "
       "differ, stop and ask.",
       "Material taken off a hardened surface may leave none of the hardened layer: find out how it was "
       "hardened, and whether it is to be renewed afterwards.",
       "Radii at the ends of journals, and the edges of oil holes, are finished as the part's maker asks.",
       "Measure parts and gauges when both are cold, near 20 °C, clean and dry."}};
  for (const Remedy& remedy : advice_on(engine, features))
    for (const std::string& caution : remedy.cautions) items.sentences.push_back(heading(caution) + ".");
  return items;
}

std::vector<Reading> readings_that_count(const Engine& engine, const CountingMap& counts, const Features& features) {
  std::set<std::int64_t> seqs;
  for (const auto& [place, counting] : counts)
    if (is_among(features, place.feature)) seqs.insert(counting.seqs.begin(), counting.seqs.end());
  std::vector<Reading> readings = engine.readings;
  std::erase_if(readings, [&](const Reading& reading) { return !seqs.contains(reading.seq); });
  return readings;
}

}  // namespace

Paper shop_sheet(const Bench& bench, const Engine& engine, const Features& features, const Head& head) {
  const Results results = results_of(engine);
  Paper paper{"Order to the machine shop", engine.name, engine.spec->title, printed(head), bench.time, {}, {}};
  paper.top = {facts_of(*engine.spec, bench.time)};
  Act parts{"Sizes", "asked for, measured, and after the work", {}};
  for (const Feature* feature : features) parts.parts.push_back(feature_part(results, *feature));
  paper.acts = {
      {"Work", "what is to be done", {work_part(bench, engine, features)}},
      std::move(parts),
      {"Leave alone", "", {{"", {leave_alone(*engine.spec, features)}}}},
      {"Gauges", "what it was measured with",
       gauges_parts(bench, readings_that_count(engine, results.counts, features), engine.spec->unit)},
      {"Cautions", "", {{"", {shop_cautions(engine, features)}}}},
      {"Signed", "", {{"", {Signatures{{"Handed over by", "Taken on by", "Work done by", "Back, measured by"}}}}}},
      {"Proof", "", {{"", {said("The measurements stand in a ledger whose head was:"), HeadOfChain{paper.head}}}}}};
  return paper;
}

}  // namespace tenth::paper
