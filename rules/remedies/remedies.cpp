#include <algorithm>

#include "rules/figure.hpp"
#include "rules/names.hpp"
#include "rules/remedies/collector.hpp"
#include "rules/remedies/words.hpp"

namespace tenth {
namespace {

constexpr Names<RemedyKind, 7> kKinds{{"shells", "match", "part", "grind", "hone", "file", "combined"}};
constexpr Names<Undo, 3> kUndo{{"free", "part", "never"}};

bool holds_part(const Stock* stock, const std::string& feature) {
  return stock != nullptr && std::ranges::find(stock->parts, feature, &SparePart::feature) != stock->parts.end();
}

/// Matching among the parts of the engine, and with spares where these do more; each followed by honing what is left,
/// where honing alone is not enough. That no other matching would leave less to hone is not proven.
void add_matches(Collector& into, const Setup& setup, const Stock* stock) {
  const bool spares = holds_part(stock, setup.fit->outside);
  if (!spares && !setup.fit->match) return;
  Obstacles unheard;
  const std::optional<Offer> among = match(setup, nullptr, spares ? unheard : into.obstacles);
  std::optional<Offer> with = spares ? match(setup, stock, into.obstacles) : std::nullopt;
  if (with && with->remedy.undo != Undo::part) with.reset();
  if (with && among && !better(with->remedy, among->remedy)) with.reset();
  for (const std::optional<Offer>* const offer : {&among, &std::as_const(with)}) {
    if (!*offer) continue;
    into.add((*offer)->remedy);
    if (stock == nullptr || into.has_enough(setup.fit->name, "", Undo::never)) continue;
    if (const auto then = hone((*offer)->after, *stock, unheard)) into.add_both(setup, **offer, *then);
  }
}

void add_fit(Collector& into, const Setup& setup, const Stock* stock) {
  const std::size_t obstacles = into.obstacles.size();
  if (stock != nullptr)
    if (auto offer = shells(setup, *stock, into.obstacles)) into.add(std::move(offer->remedy));
  if (stock != nullptr) {
    for (Offer& offer : grind(setup, *stock, into.obstacles)) into.add(std::move(offer.remedy));
    if (auto offer = hone(setup, *stock, into.obstacles)) into.add(std::move(offer->remedy));
  }
  add_matches(into, setup, stock);
  if (stock != nullptr && !into.has_enough(setup.fit->name, "", Undo::never))
    if (const auto both = grind_and_fit(setup, *stock)) into.add_both(setup, both->first, both->second);
  if (into.has_any(setup.fit->name) || into.obstacles.size() > obstacles) return;
  const std::string why = stock == nullptr
                              ? "shells, spares, grinding and honing come from a stock file, and none was given"
                              : "the stock has nothing that changes it";
  for (const Couple& couple : setup.couples)
    if (is_bad(judged(setup, couple).verdict))
      into.obstacles.push_back({{setup.fit->name, "", couple.inside_index, why}, Undo::never});
}

bool any_bad(const Setup& setup) {
  return std::ranges::any_of(judged(setup), [](const FitResult& result) { return is_bad(result.verdict); });
}

/// A feature that is out by itself; gaps have remedies of their own. True: nothing, or grinding it anew, mends it.
bool mended(const Collector& collector, const Engine& engine, const FeatureResult& result, RemedyList& list) {
  if (result.verdict != Verdict::out || engine.spec->find(result.feature)->kind == Kind::gap ||
      collector.grinds(result.feature, result.index))
    return true;
  const Reason& reason = result.reasons.front();
  const Unit unit = engine.spec->unit;
  list.none.push_back({"", result.feature, result.index,
                       reason.what + " " + both_units(*reason.value, unit) + " is past its limit " +
                           both_units(*reason.limit, unit) + ": only another part or a repair helps"});
  return false;
}

/// What is out and no remedy is sought for.
bool rest_mended(const Collector& collector, const Engine& engine, const Report& report, RemedyList& list) {
  bool all = true;
  for (const FeatureResult& result : report.features) all = mended(collector, engine, result, list) && all;
  for (const SpreadResult& result : report.spreads) {
    if (result.verdict != Verdict::out || collector.grinds(result.feature, 1)) continue;
    list.none.push_back({"", result.feature, 0, "its spread is past its limit: no remedy is known for that"});
    all = false;
  }
  for (const CheckResult& result : report.checks) {
    if (result.verdict != Verdict::out) continue;
    list.none.push_back({"", result.feature, result.index, "it was answered no"});
    all = false;
  }
  return all;
}

bool all_have_enough(const Collector& collector, const Engine& engine, const Report& report) {
  const bool fits = std::ranges::all_of(report.fits, [&](const FitResult& result) {
    return result.verdict != Verdict::out || collector.has_enough(result.fit, "", Undo::never);
  });
  return fits && std::ranges::all_of(report.features, [&](const FeatureResult& result) {
           const bool gap = engine.spec->find(result.feature)->kind == Kind::gap;
           return result.verdict != Verdict::out || !gap || collector.has_enough("", result.feature, Undo::never);
         });
}

/// What the builder calls an index of a fit, which is its inside part's, or of a feature.
std::string label_in(const Engine& engine, const std::string& fit, const std::string& feature, int index) {
  const auto found = std::ranges::find(engine.spec->fits, fit, &Fit::name);
  const Feature* const named = engine.spec->find(found == engine.spec->fits.end() ? feature : found->inside);
  return named == nullptr || index < 1 ? "" : label_of(*named, index);
}

void put_labels(const Engine& engine, RemedyList& list) {
  for (Remedy& remedy : list.remedies)
    for (After& after : remedy.after) after.label = label_in(engine, remedy.fit, remedy.feature, after.index);
  for (NoRemedy& none : list.none) none.label = label_in(engine, none.fit, none.feature, none.index);
}

/// Each fit's remedies are sought by themselves; what they do to a part another fit feels too.
void tell_of_other_fits(const Spec& spec, RemedyList& list) {
  for (Remedy& remedy : list.remedies) {
    const auto fit = std::ranges::find(spec.fits, remedy.fit, &Fit::name);
    if (fit == spec.fits.end()) continue;
    const bool both = remedy.kind == RemedyKind::combined;
    const bool inside = both || remedy.kind == RemedyKind::hone || !remedy.halves.empty();
    const bool outside = both || remedy.kind == RemedyKind::grind || !remedy.takes.empty();
    const auto changed = [&](const std::string& feature) {
      return (inside && feature == fit->inside) || (outside && feature == fit->outside);
    };
    for (const Fit& other : spec.fits)
      if (other.name != fit->name && (changed(other.inside) || changed(other.outside)))
        remedy.cautions.push_back("it changes " + other.name + " too, which is not looked at here");
  }
}

}  // namespace

RemedyList remedies(const Engine& engine, const Stock* stock) {
  Collector collector;
  for (const Fit& fit : engine.spec->fits)
    if (const Setup setup = setup_of(engine, fit); any_bad(setup)) add_fit(collector, setup, stock);
  for (const Feature& feature : engine.spec->features)
    if (feature.kind == Kind::gap && feature.limits.any())
      for (Remedy& remedy : gaps(engine, feature, stock, collector.obstacles)) collector.add(std::move(remedy));
  const Report report = judge(engine);
  RemedyList rest;
  const bool mended = rest_mended(collector, engine, report, rest);
  const bool enough = all_have_enough(collector, engine, report);
  RemedyList list = std::move(collector).ranked();
  tell_of_other_fits(*engine.spec, list);
  list.none.insert(list.none.end(), rest.none.begin(), rest.none.end());
  list.suffices = mended && enough;
  put_labels(engine, list);
  return list;
}

std::string_view name(RemedyKind kind) {
  return kKinds.of(kind);
}
std::string_view name(Undo undo) {
  return kUndo.of(undo);
}

}  // namespace tenth
