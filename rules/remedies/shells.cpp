#include <algorithm>

#include "rules/figure.hpp"
#include "rules/remedies/offer.hpp"
#include "rules/remedies/seat.hpp"
#include "rules/remedies/words.hpp"

namespace tenth {
namespace {

/// Seats whose fit is measured and of which at least one half is known; others stay as they are.
std::vector<Couple> seats_in_question(const Setup& setup, const Stock& stock, Obstacles& obstacles) {
  const Shelf shelf(setup, stock, {});
  std::vector<Couple> seats;
  for (const Couple& couple : setup.couples) {
    const bool upper = shelf.fitted(couple.inside_index, Half::upper).has_value();
    const bool lower = shelf.fitted(couple.inside_index, Half::lower).has_value();
    if ((upper || lower) && complete(setup, couple)) seats.push_back(couple);
    if ((!upper || !lower) && is_bad(judged(setup, couple).verdict))
      obstacles.push_back(
          {{setup.fit->name, "", couple.inside_index, "no wall known for the halves fitted"}, Undo::free});
  }
  return seats;
}

void add_steps(Remedy& remedy, const Setup& setup, Shelf& shelf, const Seat& seat, const Pair& pair) {
  const int index = seat.couple.inside_index;
  for (const Half side : {Half::upper, Half::lower}) {
    const auto kind = side == Half::upper ? pair.upper : pair.lower;
    if (!kind || kind == shelf.fitted(index, side)) continue;
    remedy.halves.push_back(
        {index, label_of(setup.inside(), index), side, shelf.fitted_id(index, side), shelf.take(*kind)});
  }
}

Offer chosen(const Setup& setup, Shelf shelf, const std::vector<Seat>& seats, const std::vector<std::size_t>& picks) {
  Offer offer{{}, setup};
  for (std::size_t i = 0; i < seats.size(); ++i) {
    const Pair& pair = seats[i].pairs[picks[i]];
    const int index = seats[i].couple.inside_index;
    for (const Half side : {Half::upper, Half::lower}) {
      const auto kind = side == Half::upper ? pair.upper : pair.lower;
      if (kind && kind == shelf.fitted(index, side)) shelf.keep(shelf.fitted_id(index, side));
    }
    grow_inside(offer.after, seats[i].couple, pair.opens.by, pair.opens.unsure);
  }
  for (std::size_t i = 0; i < seats.size(); ++i)
    add_steps(offer.remedy, setup, shelf, seats[i], seats[i].pairs[picks[i]]);
  return offer;
}

void tell_what_stays_bad(const Setup& after, Obstacles& obstacles) {
  for (const Couple& couple : after.couples)
    if (const FitResult result = judged(after, couple); is_bad(result.verdict))
      obstacles.push_back(
          {{after.fit->name, "", couple.inside_index,
            "no bearing halves of the stock bring it in: the best leave it " + still_bad(result, after)},
           Undo::free});
}

}  // namespace

std::optional<Offer> shells(const Setup& setup, const Stock& stock, Obstacles& obstacles,
                            std::optional<Length> undersize) {
  if (Shelf(setup, stock, {}).kinds() == 0) return std::nullopt;
  const std::vector<Couple> couples = seats_in_question(setup, stock, obstacles);
  if (couples.empty() || (undersize && couples.size() != setup.couples.size())) return std::nullopt;
  const Shelf shelf(setup, stock, couples);
  std::vector<Seat> seats;
  std::vector<std::vector<Way>> ways;
  for (const Couple& couple : couples) {
    seats.push_back(seat_of(setup, shelf, couple, undersize));
    ways.push_back(seats.back().ways);
  }
  const auto picks = best_choice(ways, shelf.supply());
  if (!picks) return std::nullopt;
  Offer offer = chosen(setup, shelf, seats, picks->position);
  Remedy& remedy = offer.remedy;
  fill_after(remedy, offer.after);
  remedy.kind = RemedyKind::shells;
  remedy.undo = Undo::free;
  remedy.moved = static_cast<int>(remedy.halves.size());
  remedy.text = words_of_shells(remedy);
  remedy.cautions = {"measure again after fitting"};
  if (!picks->proven) remedy.cautions.push_back("too many combinations: the best found, not proven to be the best");
  tell_what_stays_bad(offer.after, obstacles);
  if (!undersize && !better(remedy, setup)) return std::nullopt;
  return offer;
}

}  // namespace tenth
