#include <algorithm>

#include "rules/causes.hpp"
#include "rules/couples.hpp"
#include "rules/fit.hpp"
#include "rules/joined.hpp"

namespace tenth {
namespace {

std::string told(const Reason& reason, Unit unit) {
  const bool upper = reason.side == Side::upper;
  const std::string what = reason.what == "out_of_round" ? "out-of-round" : reason.what;
  const std::string limit = (upper ? "the upper limit " : "the lower limit ") + shown(*reason.limit, unit);
  const std::string figure = what + " " + shown(*reason.value, unit);
  if (reason.verdict == Verdict::doubtful) return figure + " is nearer to " + limit + " than its uncertainty";
  const Length past = (*reason.value - *reason.limit).magnitude();
  return figure + " is " + shown_past(past, unit) + (upper ? " over " : " under ") + limit;
}

std::vector<std::int64_t> seqs_at(const CountingMap& counts, std::span<const Place> places) {
  std::vector<std::int64_t> seqs;
  for (const Place& place : places)
    if (const auto found = counts.find(place); found != counts.end())
      seqs.insert(seqs.end(), found->second.seqs.begin(), found->second.seqs.end());
  std::ranges::sort(seqs);
  return seqs;
}

bool speaks(std::optional<Verdict> verdict) {
  return verdict == Verdict::out || verdict == Verdict::doubtful;
}

bool is_one_sided(const FitResult& result) {
  return result.mean && (result.corrected == Corrected::inside || result.corrected == Corrected::outside);
}

/// Collects what speaks, thing by thing.
class Collector {
 public:
  Collector(const Engine& engine, const Report& report) : unit_(engine.spec->unit), counts_(report.counts) {}

  /// Speaks of the figures that make the whole out or doubtful.
  void add(const std::string& subject, std::optional<Verdict> verdict, std::span<const Reason> reasons,
           std::span<const Place> places) {
    std::vector<std::string> texts;
    for (const Reason& reason : reasons)
      if (reason.verdict == verdict) texts.push_back(told(reason, unit_));
    Cause cause = cause_of(verdict == Verdict::out ? AlertWhat::out : AlertWhat::doubtful, subject);
    cause.text = subject + ": " + joined(texts, "; ");
    cause.value = reasons.front().value;
    cause.limit = reasons.front().limit;
    cause.seqs = seqs_at(counts_, places);
    causes.push_back(std::move(cause));
  }

  void add_no(const std::string& subject, const Answered& answered) {
    Cause cause = cause_of(AlertWhat::out, subject);
    cause.text = subject + ": answered no" + (answered.note.empty() ? "" : ", " + answered.note);
    cause.seqs = {answered.seq};
    causes.push_back(std::move(cause));
  }

  void add_one_sided(const std::string& subject, Corrected corrected, std::span<const Place> places) {
    Cause cause = cause_of(AlertWhat::temperature, subject);
    const std::string side(name(corrected)),
        other(name(corrected == Corrected::inside ? Corrected::outside : Corrected::inside));
    cause.text = subject + ": the " + side + " is corrected to 20 C, the " + other +
                 " is not: tell its temperature and material, or measure both at one temperature";
    cause.seqs = seqs_at(counts_, places);
    causes.push_back(std::move(cause));
  }

  std::vector<Cause> causes;

 private:
  Unit unit_;
  const CountingMap& counts_;
};

std::vector<Place> places_of_all(const Feature& feature) {
  std::vector<Place> places;
  for (int index = 1; index <= feature.count(); ++index)
    for (const Place& place : places_of(feature, index)) places.push_back(place);
  return places;
}

void add_fits(Collector& collector, const Engine& engine, const Report& report) {
  const Spec& spec = *engine.spec;
  for (const FitResult& result : report.fits) {
    if (!speaks(result.verdict) && !is_one_sided(result)) continue;
    const Fit& fit = *std::ranges::find(spec.fits, result.fit, &Fit::name);
    const std::vector<Couple> couples = couples_of(engine, fit);
    const Couple& couple = *std::ranges::find(couples, result.index, &Couple::inside_index);
    FitPlaces places = places_of_fit(spec, fit, couple);
    places.inside.insert(places.inside.end(), places.outside.begin(), places.outside.end());
    const std::string subject = subject_of(fit.name, *spec.find(fit.inside), result.index);
    if (speaks(result.verdict)) collector.add(subject, result.verdict, result.reasons, places.inside);
    if (is_one_sided(result)) collector.add_one_sided(subject, result.corrected, places.inside);
  }
}

}  // namespace

std::vector<Cause> figure_causes(const Engine& engine, const Report& report) {
  const Spec& spec = *engine.spec;
  Collector collector(engine, report);
  for (const FeatureResult& result : report.features) {
    if (!speaks(result.verdict)) continue;
    const Feature& feature = *spec.find(result.feature);
    collector.add(subject_of(feature.name, feature, result.index), result.verdict, result.reasons,
                  places_of(feature, result.index));
    const bool too_wide = result.verdict == Verdict::out && result.reasons.front().side == Side::upper;
    if (feature.kind == Kind::gap && too_wide) collector.causes.back().text.insert(0, "cannot be undone: ");
  }
  add_fits(collector, engine, report);
  for (const SpreadResult& result : report.spreads) {
    if (!result.spread || !speaks(result.verdict)) continue;
    const Reason reason{"spread", result.spread, result.limit, Side::upper, *result.verdict};
    collector.add("spread " + result.feature, result.verdict, std::span(&reason, 1),
                  places_of_all(*spec.find(result.feature)));
  }
  for (const CheckResult& result : report.checks)
    if (result.answer == Answer::no)
      collector.add_no(subject_of(result.feature, *spec.find(result.feature), result.index),
                       engine.answers.at({result.feature, result.index}));
  return collector.causes;
}

}  // namespace tenth
