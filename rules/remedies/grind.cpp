#include <algorithm>

#include "rules/figure.hpp"
#include "rules/remedies/grinding.hpp"
#include "rules/remedies/words.hpp"

namespace tenth {
namespace {

void obstruct(Obstacles& obstacles, const Setup& setup, int index, const std::string& why) {
  obstacles.push_back({{setup.fit->name, "", index, why}, Undo::never});
}

std::optional<Offer> common_size(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals,
                                 Obstacles& obstacles) {
  const Window window = window_of(setup, grind, journals);
  if (!window.possible()) {
    obstruct(obstacles, setup, window.ceiling_index, "no common size: " + window.conflict(setup.engine->spec->unit));
    return std::nullopt;
  }
  Offer offer =
      ground(setup, grind, journals, std::vector(journals.size(), window.nearest(ideal_size(setup, journals))));
  finish(offer, setup, grind);
  return offer;
}

/// Journals at the middle of the standard less a step, with the best halves for it.
std::optional<Offer> at_step(const Setup& setup, const Stock& stock, const Grind& grind,
                             const std::vector<Journal>& journals, Length step) {
  const Length size = size_of_step(grind, step);
  if (!can_be_ground_to(grind, journals, size)) return std::nullopt;
  Offer offer = ground(setup, grind, journals, std::vector(journals.size(), size));
  Obstacles unheard;
  auto fitted = shells(offer.after, stock, unheard, step);
  if (!fitted) return std::nullopt;
  offer.after = std::move(fitted->after);
  offer.remedy.halves = std::move(fitted->remedy.halves);
  offer.remedy.moved = fitted->remedy.moved;
  offer.remedy.undersize = step;
  offer.remedy.cautions.insert(offer.remedy.cautions.begin(), "measure again after fitting");
  finish(offer, setup, grind);
  return offer;
}

/// The first step that is enough, else the best of them.
std::optional<Offer> best_step(const Setup& setup, const Stock& stock, const Grind& grind,
                               const std::vector<Journal>& journals, Obstacles& obstacles) {
  std::optional<Offer> best;
  for (const Length step : grind.steps)
    if (auto offer = at_step(setup, stock, grind, journals, step))
      if (!best || (!best->remedy.enough && better(offer->remedy, best->remedy))) best = std::move(offer);
  if (!best && !grind.steps.empty())
    obstruct(obstacles, setup, 0,
             "no undersize leaves a whole surface, stays above the last size and has shells for every seat");
  if (best && !better(best->remedy, setup)) best.reset();
  return best;
}

}  // namespace

const Grind* grind_of(const Stock& stock, const std::string& feature) {
  const auto found = std::ranges::find(stock.grinds, feature, &Grind::feature);
  return found == stock.grinds.end() ? nullptr : &*found;
}

Offer ground(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals,
             const std::vector<Length>& sizes) {
  Offer offer{{}, setup};
  Remedy& remedy = offer.remedy;
  remedy.kind = RemedyKind::grind;
  remedy.undo = Undo::never;
  remedy.feature = grind.feature;
  for (std::size_t i = 0; i < journals.size(); ++i) {
    const Length size = sizes[i];
    set_outside(offer.after, journals[i].index, size, grind.tolerance);
    remedy.cuts.push_back({journals[i].index, label_of(setup.outside(), journals[i].index), journals[i].mean, size,
                           size - grind.tolerance, size + grind.tolerance, journals[i].mean - size});
  }
  if (!grind.hardening.empty()) remedy.cautions.push_back(grind.hardening);
  if (grind.all_alike) remedy.cautions.push_back("one ground: all ground");
  remedy.cautions.push_back("the grinder and the part maker decide");
  return offer;
}

void finish(Offer& offer, const Setup& setup, const Grind& grind) {
  fill_after(offer.remedy, offer.after);
  offer.remedy.text = words_of_grinding(offer.remedy, setup, grind);
}

Length size_of_step(const Grind& grind, Length step) {
  return mean(std::vector{*grind.standard.lower, *grind.standard.upper}) - step;
}

std::optional<Offer> single_journals(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals,
                                     Obstacles& obstacles) {
  std::vector<Journal> chosen;
  std::vector<Length> sizes;
  for (const Journal& journal : journals) {
    const auto bad = [&](const Couple& couple) { return is_bad(judged(setup, couple).verdict); };
    if (std::ranges::none_of(journal.couples, bad)) continue;
    const std::vector<Journal> alone = {journal};
    const Window window = window_of(setup, grind, alone);
    if (!window.possible()) {
      obstruct(obstacles, setup, window.ceiling_index,
               "no size by itself: " + window.conflict(setup.engine->spec->unit));
      continue;
    }
    chosen.push_back(journal);
    sizes.push_back(window.nearest(ideal_size(setup, alone)));
  }
  if (chosen.empty()) return std::nullopt;
  Offer offer = ground(setup, grind, chosen, sizes);
  finish(offer, setup, grind);
  return offer;
}

std::vector<Offer> grind(const Setup& setup, const Stock& stock, Obstacles& obstacles) {
  const Grind* const grind = grind_of(stock, setup.fit->outside);
  if (grind == nullptr) return {};
  const auto journals = journals_of(setup);
  std::optional<Offer> offer;
  if (journals.complete && grind->any_size) offer = common_size(setup, *grind, journals.all, obstacles);
  if (!offer && journals.complete) offer = best_step(setup, stock, *grind, journals.all, obstacles);
  if (!offer && !grind->all_alike && grind->any_size) offer = single_journals(setup, *grind, journals.all, obstacles);
  if (!journals.complete && !offer)
    obstruct(obstacles, setup, 0,
             "grinding: not every " + setup.fit->inside + " and " + setup.fit->outside + " is measured");
  if (!offer) return {};
  return {*std::move(offer)};
}

}  // namespace tenth
