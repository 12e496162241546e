#include <algorithm>

#include "rules/figure.hpp"
#include "rules/remedies/offer.hpp"
#include "rules/remedies/words.hpp"
#include "rules/ring.hpp"

namespace tenth {
namespace {

/// How far a bore may grow, and what forbids more.
struct Room {
  Length most;
  std::string by;
};

Room room_of(const Setup& setup, const Hone& hone, const Couple& couple) {
  Room room{hone.most, "the largest enlargement allowed"};
  const auto upper = setup.inside().limits.upper;
  const auto sizes = sizes_at(setup.counts, places_of(setup.inside(), couple.inside_index));
  if (upper && *upper - std::ranges::max(sizes) < room.most)
    room = {*upper - std::ranges::max(sizes), "the upper limit of " + hone.feature};
  return room;
}

/// How far a fit's mean is below where it should be; with a lower limit alone, how far the figure judged is below that.
Length short_of(const Setup& setup, const FitResult& result) {
  if (const auto aim = aim_of(*setup.fit)) return *aim - *result.mean;
  if (!setup.fit->limits.lower) return {};
  return *setup.fit->limits.lower - (setup.fit->judge == JudgeBy::mean ? *result.mean : *result.min);
}

void obstruct(Obstacles& obstacles, const Setup& setup, const Couple& couple, const std::string& why) {
  obstacles.push_back({{setup.fit->name, "", couple.inside_index, "honing: " + why}, Undo::never});
}

/// The part of a growth that is allowed; tells what forbids the rest.
Length allowed(const Setup& setup, const Hone& hone, const Couple& couple, Length wanted, Obstacles& obstacles) {
  const Room room = room_of(setup, hone, couple);
  if (wanted <= room.most) return wanted;
  const Length growth = std::max(room.most, Length());
  obstruct(obstacles, setup, couple,
           room.by + " forbids " + shown(wanted - room.most, setup) + " of the " + shown(wanted, setup) + " needed" +
               (room.most < Length() ? ": it is past it already, and only another part helps" : ""));
  return growth;
}

}  // namespace

std::optional<Offer> hone(const Setup& setup, const Stock& stock, Obstacles& obstacles) {
  const auto found = std::ranges::find(stock.hones, setup.fit->inside, &Hone::feature);
  if (found == stock.hones.end()) return std::nullopt;
  Offer offer{{}, setup};
  Remedy& remedy = offer.remedy;
  Length largest;
  for (const Couple& couple : setup.couples) {
    const FitResult result = judged(setup, couple);
    if (!is_bad(result.verdict) || !complete(setup, couple)) continue;
    const Length wanted = short_of(setup, result);
    if (wanted <= Length()) {
      obstruct(obstacles, setup, couple, "it only opens a clearance, and this one is " + still_bad(result, setup));
      continue;
    }
    const Length growth = allowed(setup, *found, couple, wanted, obstacles);
    if (growth == Length()) continue;
    const Length now = mean(sizes_at(setup.counts, places_of(setup.inside(), couple.inside_index)));
    grow_inside(offer.after, couple, growth);
    remedy.cuts.push_back({couple.inside_index, result.label, now, now + growth, now + growth, now + growth, growth});
    largest = std::max(largest, growth);
  }
  if (remedy.cuts.empty()) return std::nullopt;
  fill_after(remedy, offer.after);
  if (!better(remedy, setup)) return std::nullopt;
  remedy.kind = RemedyKind::hone;
  remedy.undo = Undo::never;
  remedy.feature = found->feature;
  const Unit unit = setup.engine->spec->unit;
  remedy.text = words_of_cutting(remedy, "hone", unit);
  const Length opens = gap_growth(largest);
  remedy.cautions = {
      "a bore that grows opens its ring gaps by pi x the growth: here by up to " + both_units(opens, unit),
      "hone in steps, and measure when the block is cold again"};
  return offer;
}

}  // namespace tenth
