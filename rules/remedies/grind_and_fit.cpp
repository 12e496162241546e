#include <algorithm>
#include <set>

#include "rules/remedies/grinding.hpp"
#include "rules/remedies/seat.hpp"

namespace tenth {
namespace {

/// Journal sizes at which a seat is in with some pair of halves.
struct Reach {
  Length from, to;
};

/// Of a couple whose journal, now to be ground to a size, becomes smaller or larger.
Reach reach_of(const Setup& ground, const Couple& couple, Length size, Length tolerance) {
  const FitResult now = judged(ground, couple);
  const Limits& limits = ground.fit->limits;
  const Length unsure = now.uncertainty.value_or(Length());
  const bool by_mean = ground.fit->judge == JudgeBy::mean;
  const Length least = by_mean ? *now.mean - tolerance : *now.min, most = by_mean ? *now.mean + tolerance : *now.max;
  return {limits.upper ? size + (most - *limits.upper + unsure) : -kLongest,
          limits.lower ? size + (least - *limits.lower - unsure) : kLongest};
}

class GrindAndFit {
 public:
  GrindAndFit(const Setup& setup, const Stock& stock, const Grind& grind, const std::vector<Journal>& journals)
      : setup_(setup), stock_(stock), grind_(grind), journals_(journals) {}

  std::optional<std::pair<Offer, Offer>> best() && {
    for (const Length size : likely_sizes()) try_in_turns(size);
    if (grind_.any_size) try_sizes_that_may_bring_more_in();
    Obstacles unheard;
    if (grind_.any_size && !grind_.all_alike)
      if (auto cut = single_journals(setup_, grind_, journals_, unheard)) keep(*std::move(cut));
    return std::move(best_);
  }

 private:
  /// The largest that cleans up, the one that the halves fitted would want, and every step.
  std::vector<Length> likely_sizes() const {
    std::vector<Length> sizes;
    if (grind_.any_size) sizes = {largest_clean(grind_, journals_), ideal_size(setup_, journals_).value_or(Length())};
    for (const Length step : grind_.steps) sizes.push_back(size_of_step(grind_, step));
    std::erase_if(sizes, [&](Length size) { return !can_be_ground_to(grind_, journals_, size); });
    return sizes;
  }

  Offer ground_to(Length size) const {
    Offer cut = ground(setup_, grind_, journals_, std::vector(journals_.size(), size));
    finish(cut, setup_, grind_);
    return cut;
  }

  /// The best halves for this grinding, where the two are better than what was tried before. Returns the fit with them.
  std::optional<Setup> keep(Offer cut) {
    Obstacles unheard;
    auto fitted = shells(cut.after, stock_, unheard);
    if (!fitted) return std::nullopt;
    Setup after = fitted->after;
    if (!best_ || better(fitted->remedy, best_->second.remedy)) best_ = {std::move(cut), *std::move(fitted)};
    return after;
  }

  /// The halves for the size, then the size for those halves.
  void try_in_turns(Length size) {
    constexpr int kTurns = 3;
    for (int turn = 0; turn < kTurns; ++turn) {
      const auto fitted = keep(ground_to(size));
      if (!fitted || !grind_.any_size) return;
      const Window window = window_of(*fitted, grind_, journals_);
      if (!window.possible()) return;
      const Length next = window.nearest(ideal_size(*fitted, journals_));
      if (next == size) return;
      size = next;
    }
  }

  /// Whatever size is chosen, it may grow until the first of the seats that are in is about to leave: so among the ends
  /// of the seats' reaches, and the largest that cleans up, there is one that is enough, if any is.
  void try_sizes_that_may_bring_more_in() {
    constexpr std::size_t kMostSizes = 60;
    const std::vector<std::vector<Reach>> seats = reaches();
    std::vector<std::pair<int, Length>> sizes;
    for (const Length size : ends_of(seats)) sizes.emplace_back(reached(seats, size), size);
    std::ranges::sort(sizes, std::greater());
    std::size_t tried = 0;
    for (const auto& [reached, size] : sizes) {
      if (best_ && reached <= best_->second.remedy.in) return;
      if (tried++ == kMostSizes) break;
      try_in_turns(size);
    }
    if (tried > kMostSizes && best_)
      best_->second.remedy.cautions.push_back("not every size was tried: another may do more");
  }

  std::vector<std::vector<Reach>> reaches() const {
    const Length size = largest_clean(grind_, journals_);
    const Setup cut = ground_to(size).after;
    const Shelf shelf(cut, stock_, cut.couples);
    std::vector<std::vector<Reach>> seats;
    for (const Couple& couple : cut.couples) {
      std::set<std::pair<Length, Length>> opens;
      for (const Pair& pair : seat_of(cut, shelf, couple, {}).pairs) opens.emplace(pair.opens.by, pair.opens.unsure);
      std::vector<Reach>& seat = seats.emplace_back();
      for (const auto& [by, unsure] : opens) {
        Setup changed = only(cut, couple);
        grow_inside(changed, couple, by, unsure);
        seat.push_back(reach_of(changed, couple, size, grind_.tolerance));
      }
    }
    return seats;
  }

  std::set<Length> ends_of(const std::vector<std::vector<Reach>>& seats) const {
    std::set<Length> ends = {largest_clean(grind_, journals_)};
    for (const auto& seat : seats)
      for (const Reach& reach : seat)
        if (reach.from <= reach.to) ends.insert(reach.to);
    std::erase_if(ends, [&](Length size) { return !can_be_ground_to(grind_, journals_, size); });
    return ends;
  }

  static int reached(const std::vector<std::vector<Reach>>& seats, Length size) {
    return static_cast<int>(std::ranges::count_if(seats, [&](const auto& seat) {
      return std::ranges::any_of(seat, [&](const Reach& reach) { return reach.from <= size && size <= reach.to; });
    }));
  }

  const Setup& setup_;
  const Stock& stock_;
  const Grind& grind_;
  const std::vector<Journal>& journals_;
  std::optional<std::pair<Offer, Offer>> best_;
};

}  // namespace

std::optional<std::pair<Offer, Offer>> grind_and_fit(const Setup& setup, const Stock& stock) {
  const Grind* const grind = grind_of(stock, setup.fit->outside);
  if (grind == nullptr) return std::nullopt;
  const auto journals = journals_of(setup);
  if (!journals.complete) return std::nullopt;
  return GrindAndFit(setup, stock, *grind, journals.all).best();
}

}  // namespace tenth
