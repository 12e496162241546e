#include "schema/export/html/headline.hpp"

#include <set>

#include "schema/export/html/markup.hpp"
#include "schema/export/html/words.hpp"

namespace tenth::page {
namespace {

std::string fact(const std::string& what, const std::string& is) {
  return is.empty() ? "" : element("dt", escaped(what)) + element("dd", escaped(is));
}

std::string layout_words(const Layout& layout) {
  std::string words;
  const auto add = [&](const std::optional<int>& count, const char* noun) {
    if (count) words += (words.empty() ? "" : ", ") + std::to_string(*count) + " " + noun;
  };
  add(layout.cylinders, "cylinders");
  add(layout.mains, "mains");
  add(layout.crankpins, "crankpins");
  if (!words.empty() && !layout.viewed_from.empty()) words += "; counted from the " + layout.viewed_from;
  return words;
}

std::string operators(const Engine& engine) {
  std::set<std::string> names;
  for (const Reading& reading : engine.readings)
    if (reading.operator_name) names.insert(*reading.operator_name);
  std::string out;
  for (const std::string& who : names) out += (out.empty() ? "" : ", ") + who;
  return out;
}

std::string facts(const Engine& engine, const std::string& made_at) {
  const Spec& spec = *engine.spec;
  std::string out;
  for (const auto& [what, is] : spec.facts) out += fact(heading(what), is);
  out += fact("Layout", layout_words(spec.layout));
  out += fact("Measured by", operators(engine));
  if (!engine.readings.empty())
    out += fact("Measured (UTC)",
                short_time(engine.readings.front().time) + " to " + short_time(engine.readings.back().time));
  out += fact("Page made (UTC)", short_time(made_at));
  out += fact("Lengths in", spec.unit == Unit::in ? "inches" : "millimetres");
  return element("dl class=\"facts\"", out);
}

std::string trouble(const std::string& subject, const std::vector<Reason>& reasons, Unit unit) {
  std::string out;
  for (const Reason& reason : reasons)
    if (reason.verdict == Verdict::out || reason.verdict == Verdict::doubtful)
      out +=
          element("li", mark(reason.verdict) + element("span", escaped(subject + ": " + reason_words(reason, unit))));
  return out;
}

std::string numbered(const Spec& spec, const std::string& feature, const std::string& label) {
  const Feature* found = spec.find(feature);
  return heading(feature) + (found && found->count() == 1 ? "" : " " + label);
}

std::string missing_words(const Report& report) {
  int places = 0, answers = 0;
  for (const FeatureResult& result : report.features) places += result.missing;
  for (const CheckResult& check : report.checks) answers += check.verdict == Verdict::incomplete ? 1 : 0;
  std::string out;
  if (places > 0) out += std::to_string(places) + (places == 1 ? " place" : " places") + " still to measure";
  if (answers > 0)
    out += (out.empty() ? "" : ", ") + std::to_string(answers) + (answers == 1 ? " check" : " checks") + " to answer";
  return out.empty() ? "" : element("li", mark(Verdict::incomplete) + element("span", out));
}

std::string troubles(const Spec& spec, const Report& report) {
  std::string out;
  for (const FitResult& fit : report.fits) out += trouble(heading(fit.fit) + " " + fit.label, fit.reasons, spec.unit);
  for (const FeatureResult& f : report.features)
    out += trouble(numbered(spec, f.feature, f.label), f.reasons, spec.unit);
  for (const SpreadResult& s : report.spreads)
    if (s.verdict && s.spread)
      out += trouble(heading(s.feature), {{"spread", s.spread, s.limit, Side::upper, *s.verdict}}, spec.unit);
  for (const CheckResult& c : report.checks)
    if (c.verdict == Verdict::out)
      out += element(
          "li", mark(c.verdict) + element("span", escaped(numbered(spec, c.feature, c.label) + ": the answer is no")));
  return out + missing_words(report);
}

}  // namespace

std::string headline(const Engine& engine, const Report& report, const std::string& made_at) {
  const std::string list = troubles(*engine.spec, report);
  return element("header", element("p class=\"kind\"", "Build record") + element("h1", escaped(engine.name)) +
                               element("p class=\"title\"", escaped(engine.spec->title)) + facts(engine, made_at)) +
         element("section class=\"whole\"", mark(report.verdict) + element("p", verdict_sentence(report.verdict)) +
                                                (list.empty() ? "" : element("ul", list)));
}

}  // namespace tenth::page
