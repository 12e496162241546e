#include "rules/remedies/what_if.hpp"

#include <algorithm>

#include "rules/fit.hpp"
#include "rules/joined.hpp"
#include "rules/nearest.hpp"
#include "rules/remedies/halves.hpp"
#include "rules/remedies/setup.hpp"
#include "rules/remedies/shelf.hpp"

namespace tenth {
namespace {

Result<const Shell*> find_shell(const Stock& stock, const std::string& feature, const std::string& id) {
  std::vector<std::string> ids;
  for (const Shell& shell : stock.shells) {
    if (shell.feature != feature) continue;
    if (shell.id == id) return &shell;
    ids.push_back(shell.id);
  }
  return refuse("unknown_shell", "the stock has no half " + quoted(id) + " for " + feature,
                ids.empty() ? "it has none for this feature" : "choose from: " + joined(ids));
}

/// One half put in for the one that sits there.
Result<void> put_in(Setup& setup, const Stock& stock, const Couple& couple, Half side, const std::string& id) {
  const Shelf shelf(setup, stock, {});
  if (id == shelf.fitted_id(couple.inside_index, side)) return {};
  TENTH_TRY(const Shell* const shell, find_shell(stock, setup.fit->inside, id));
  const auto fitted = shelf.fitted(couple.inside_index, side);
  const auto opens = fitted ? thicker_by(shelf.kind(*fitted), *shell) : std::nullopt;
  if (!opens)
    return refuse(
        "unknown_wall", "no wall known for the " + std::string(name(side)) + " half fitted, or for " + quoted(id),
        "say what is fitted (tenth install), and give both a wall in the stock, or one series and undersizes");
  grow_inside(setup, couple, opens->by, opens->unsure);
  return {};
}

/// Every part grows with its own material.
Result<void> warm(Setup& setup, const Spec& spec, const std::string& feature, std::span<const Place> places,
                  Warmth warmth) {
  const auto expansion = expansion_of(spec, *spec.find(feature));
  if (!expansion)
    return refuse("unknown_material", "the spec names no known material for " + feature,
                  "add material = \"steel\" or a [material.NAME]");
  for (const Place& place : places)
    if (const auto counting = setup.counts.find(place); counting != setup.counts.end())
      counting->second.size = at_20c(counting->second.size, *expansion, Warmth{-warmth.ninths_uk}, {}, {});
  return {};
}

Result<void> warm_both(Setup& setup, const Spec& spec, const FitPlaces& places, Warmth warmth) {
  if (auto inside = warm(setup, spec, setup.fit->inside, places.inside, warmth); !inside) return inside;
  return warm(setup, spec, setup.fit->outside, places.outside, warmth);
}

}  // namespace

Result<FitResult> what_if(const Engine& engine, const Stock* stock, const Fit& fit, int index,
                          const Supposed& supposed) {
  Setup setup = setup_of(engine, fit);
  const Couple couple = *std::ranges::find(setup.couples, index, &Couple::inside_index);
  const FitPlaces places = places_of_fit(*engine.spec, fit, couple);
  if (supposed.inside)
    for (const Place& place : places.inside) setup.counts[place].size = *supposed.inside;
  if (supposed.outside)
    for (const Place& place : places.outside) setup.counts[place].size = *supposed.outside;
  if (supposed.temperature)
    if (auto done = warm_both(setup, *engine.spec, places, *supposed.temperature); !done)
      return tl::unexpected(std::move(done).error());
  if (!supposed.shells) return judged(setup, couple);
  if (stock == nullptr)
    return refuse("unknown_wall", "no wall is known without a stock file", "say which: --stock FILE");
  for (const auto& [side, id] :
       {std::pair(Half::upper, supposed.shells->first), {Half::lower, supposed.shells->second}})
    if (auto done = put_in(setup, *stock, couple, side, id); !done) return tl::unexpected(std::move(done).error());
  return judged(setup, couple);
}

}  // namespace tenth
