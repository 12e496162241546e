#include "schema/export/paper/headline.hpp"

#include <algorithm>
#include <set>

#include "rules/joined.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

std::string layout_words(const Layout& layout) {
  std::vector<std::string> counts;
  const auto add = [&](const std::optional<int>& count, const char* noun) {
    if (count) counts.push_back(std::to_string(*count) + " " + noun);
  };
  add(layout.cylinders, "cylinders");
  add(layout.mains, "mains");
  add(layout.crankpins, "crankpins");
  if (counts.empty() || layout.viewed_from.empty()) return joined(counts);
  return joined(counts) + "; counted from the " + layout.viewed_from;
}

bool measured_here(const Reading& reading) {
  return reading.source != Source::imported;
}

std::string operators(const Engine& engine) {
  std::set<std::string> names;
  for (const Reading& reading : engine.readings)
    if (measured_here(reading) && reading.operator_name) names.insert(*reading.operator_name);
  return joined(names);
}

std::string numbered(const Spec& spec, const std::string& feature, const std::string& label) {
  const Feature* found = spec.find(feature);
  return heading(feature) + (found && found->count() == 1 ? "" : " " + label);
}

void add_against(Whole& whole, const std::string& subject, const std::vector<Reason>& reasons, Unit unit) {
  for (const Reason& reason : reasons)
    if (reason.verdict == Verdict::out || reason.verdict == Verdict::doubtful)
      whole.against.emplace_back(mark(reason.verdict), subject + ": " + reason_words(reason, unit));
}

/// What is wanted before results count, beside readings and answers.
void add_wanted(Whole& whole, const Spec& spec, const Report& report) {
  for (const Feature& feature : spec.features)
    if (std::ranges::any_of(report.features,
                            [&](const FeatureResult& f) { return f.feature == feature.name && lacks_setup(f); }))
      whole.against.emplace_back(mark(Verdict::incomplete),
                                 heading(feature.name) + ": set up (" + feature.setup + ") was not said");
  for (const FitResult& fit : report.fits)
    if (fit.outside_index == 0)
      whole.against.emplace_back(mark(Verdict::incomplete), heading(fit.fit) + " " + fit.label + ": no mate");
}

std::string missing_words(const Report& report) {
  int places = 0, answers = 0;
  for (const FeatureResult& result : report.features) places += result.missing;
  for (const CheckResult& check : report.checks) answers += check.verdict == Verdict::incomplete ? 1 : 0;
  std::vector<std::string> words;
  if (places > 0) words.push_back(std::to_string(places) + (places == 1 ? " place" : " places") + " still to measure");
  if (answers > 0) words.push_back(std::to_string(answers) + (answers == 1 ? " check" : " checks") + " to answer");
  return joined(words);
}

}  // namespace

Facts facts_of(const Spec& spec, const std::string& as_of) {
  Facts facts;
  for (const auto& [what, is] : spec.facts) facts.rows.emplace_back(heading(what), is);
  facts.rows.emplace_back("Layout", layout_words(spec.layout));
  facts.rows.emplace_back("Lengths in", spec.unit == Unit::in ? "inches" : "millimetres");
  facts.rows.emplace_back("As of (UTC)", short_time(as_of));
  std::erase_if(facts.rows, [](const auto& row) { return row.second.empty(); });
  return facts;
}

Facts facts_of(const Engine& engine, const std::string& as_of) {
  Facts facts = facts_of(*engine.spec, as_of);
  const auto first = std::ranges::find_if(engine.readings, measured_here);
  if (first == engine.readings.end()) return facts;
  const auto last = std::find_if(engine.readings.rbegin(), engine.readings.rend(), measured_here);
  if (const std::string who = operators(engine); !who.empty()) facts.rows.emplace_back("Measured by", who);
  facts.rows.emplace_back("Measured (UTC)", short_time(first->time) + " to " + short_time(last->time));
  return facts;
}

Whole whole_verdict(const Spec& spec, const Report& report) {
  Whole whole{mark(report.verdict), verdict_sentence(report.verdict), {}};
  for (const FitResult& fit : report.fits)
    add_against(whole, heading(fit.fit) + " " + fit.label, fit.reasons, spec.unit);
  for (const FeatureResult& f : report.features)
    add_against(whole, numbered(spec, f.feature, f.label), f.reasons, spec.unit);
  for (const SpreadResult& s : report.spreads)
    if (s.verdict && s.spread)
      add_against(whole, heading(s.feature), {{"spread", s.spread, s.limit, Side::upper, *s.verdict}}, spec.unit);
  for (const CheckResult& c : report.checks)
    if (c.verdict == Verdict::out)
      whole.against.emplace_back(mark(c.verdict), numbered(spec, c.feature, c.label) + ": the answer is no");
  add_wanted(whole, spec, report);
  if (const std::string missing = missing_words(report); !missing.empty())
    whole.against.emplace_back(mark(Verdict::incomplete), missing);
  return whole;
}

}  // namespace tenth::paper
