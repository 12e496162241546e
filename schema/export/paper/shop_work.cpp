#include <algorithm>

#include "schema/export/paper/shop_parts.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

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

/// An order stands until its parts are back; what is only told (a note, a table, a setup) is no work.
bool is_work(const Choice& choice, const Engine& engine, const Features& features) {
  if (choice.engine != engine.name) return false;
  if (choice.kind == "send")
    return std::ranges::any_of(engine.sent, [&](const auto& sent) {
      return sent.second.seq == choice.seq && is_among(features, sent.first) && is_away(engine, sent.first);
    });
  const bool chosen = choice.kind == "decide" || choice.kind == "mate" || choice.kind == "install";
  return chosen && concerns(choice, *engine.spec, features);
}

}  // namespace

bool is_among(const Features& features, const std::string& name) {
  return std::ranges::find(features, name, &Feature::name) != features.end();
}

std::vector<Remedy> advice_on(const Engine& engine, const Features& features) {
  std::vector<Remedy> all = remedies(engine, nullptr).remedies;
  std::erase_if(all, [&](const Remedy& remedy) { return !is_among(features, remedy.feature); });
  return all;
}

Part work_part(const Bench& bench, const Engine& engine, const Features& features) {
  Part part;
  Table chosen{
      Density::figures, {{"entry"}, {"when (UTC)"}, {"what", Manner::note}, {"why", Manner::note}, {"who"}}, {}};
  for (const Choice& choice : bench.choices)
    if (is_work(choice, engine, features))
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

}  // namespace tenth::paper
