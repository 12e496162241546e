#include "rules/remedies/words.hpp"

#include <algorithm>

#include "rules/figure.hpp"
#include "rules/joined.hpp"

namespace tenth {
namespace {

std::string finer(Length length, Unit unit) {
  return fixed(length, unit, usual_places(unit) + 1) + " " + std::string(name(unit));
}

Unit other(Unit unit) {
  return unit == Unit::mm ? Unit::in : Unit::mm;
}

const char* const kNever = "Cannot be undone: ";

/// Journals that are not ground, and what else stays as it is.
std::string not_to_be_touched(const Remedy& remedy, const Setup& setup) {
  std::vector<std::string> rest;
  const Feature& feature = setup.outside();
  for (int index = 1; index <= feature.count(); ++index) {
    const auto cut = std::ranges::find(remedy.cuts, index, &CutStep::index);
    if (cut == remedy.cuts.end()) rest.push_back(label_of(feature, index));
  }
  const std::string others = rest.empty() ? "" : feature.name + " " + joined(rest) + ", ";
  return "not to be touched: " + others + "every other journal, the fillets and the thrust faces";
}

/// Journals that are ground to one size stand together.
std::string sizes_asked(const Remedy& remedy, const Grind& grind, Unit unit) {
  std::string text;
  for (std::size_t from = 0; from < remedy.cuts.size();) {
    std::vector<CutStep> alike;
    while (from < remedy.cuts.size() && (alike.empty() || remedy.cuts[from].ask == alike.front().ask))
      alike.push_back(remedy.cuts[from++]);
    text += (text.empty() ? "" : "; ") + grind.feature + " " + labels_of(alike) + " to " +
            both_units(alike.front().ask, unit) + ", plus or minus " + both_units(grind.tolerance, unit);
  }
  return text;
}

}  // namespace

std::string both_units(Length length, Unit unit) {
  return finer(length, unit) + " (" + finer(length, other(unit)) + ")";
}

std::string shown(Length length, const Setup& setup) {
  return finer(length, setup.engine->spec->unit);
}

std::string still_bad(const FitResult& result, const Setup& setup) {
  if (result.reasons.empty()) return "without a verdict";
  const Reason& reason = result.reasons.front();
  const std::string limit = reason.side == Side::upper ? "its upper limit " : "its lower limit ";
  if (reason.verdict == Verdict::doubtful)
    return "nearer to " + limit + shown(*reason.limit, setup) + " than its uncertainty";
  return shown((*reason.value - *reason.limit).magnitude(), setup) +
         (reason.side == Side::upper ? " over " : " under ") + limit + shown(*reason.limit, setup);
}

std::string words_of_shells(const Remedy& remedy) {
  std::string text;
  for (const HalfStep& step : remedy.halves)
    text += (text.empty() ? "" : "; ") + step.label + " " + std::string(name(step.half)) + ": " + step.in + " for " +
            step.out;
  return text;
}

std::string words_of_match(const Remedy& remedy, const Setup& setup) {
  std::string text;
  for (const TakeStep& step : remedy.takes) {
    const std::string what =
        step.part.empty() ? "that of " + label_of(setup.outside(), step.take) : "the spare " + step.part;
    text += (text.empty() ? "" : "; ") + setup.fit->inside + " " + step.label + " gets " + what;
  }
  return setup.fit->outside + ": " + text;
}

std::string words_of_grinding(const Remedy& remedy, const Setup& setup, const Grind& grind) {
  const Unit unit = setup.engine->spec->unit;
  std::string text = kNever + ("grind " + sizes_asked(remedy, grind, unit));
  if (remedy.undersize) text += ", undersize " + both_units(*remedy.undersize, unit);
  if (!remedy.halves.empty()) text += "; then fit " + words_of_shells(remedy);
  return text + "; " + not_to_be_touched(remedy, setup);
}

std::string words_of_cutting(const Remedy& remedy, const char* verb, Unit unit) {
  std::string text;
  for (const CutStep& step : remedy.cuts)
    text += (text.empty() ? "" : "; ") + step.label + " from " + both_units(step.now, unit) + " to " +
            both_units(step.ask, unit) + ", " + both_units(step.off, unit) + " more";
  return kNever + (std::string(verb) + " " + remedy.feature + " ") + text;
}

}  // namespace tenth
