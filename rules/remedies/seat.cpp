#include "rules/remedies/seat.hpp"

#include <algorithm>
#include <map>

#include "rules/figure.hpp"
#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

/// What one side of a seat can hold, and how far it opens the clearance.
struct SideChoice {
  std::optional<std::size_t> kind;
  WallDifference opens;
  bool stays = false;
};

class SeatFilling {
 public:
  SeatFilling(const Setup& setup, const Shelf& shelf, const Couple& couple, std::optional<Length> undersize)
      : setup_(only(setup, couple)), shelf_(shelf), couple_(couple), undersize_(undersize) {}

  Seat fill() {
    Seat seat{couple_, {}, {}};
    const auto uppers = choices(Half::upper), lowers = choices(Half::lower);
    for (const SideChoice& upper : uppers)
      for (const SideChoice& lower : lowers) {
        const bool as_it_is = upper.stays && lower.stays;
        if (!as_it_is && !may_go_together(*setup_.fit, shell(upper), shell(lower))) continue;
        const Pair pair{upper.kind, lower.kind, sum(upper.opens, lower.opens)};
        seat.pairs.push_back(pair);
        seat.ways.push_back({{taken(upper), taken(lower)}, cost(pair.opens, upper, lower)});
      }
    return seat;
  }

 private:
  const Shell* shell(const SideChoice& choice) const { return choice.kind ? &shelf_.kind(*choice.kind) : nullptr; }

  std::vector<SideChoice> choices(Half side) const {
    std::vector<SideChoice> result;
    const auto fitted = shelf_.fitted(couple_.inside_index, side);
    if (may_stay(fitted)) result.push_back({fitted, {}, true});
    if (!fitted) return result;
    const std::string& label = label_of(setup_.inside(), couple_.inside_index);
    for (std::size_t kind = 0; kind < shelf_.kinds(); ++kind) {
      const Shell& shell = shelf_.kind(kind);
      if (kind == fitted || !may_sit(shell, side, label) || !may_be_put_in(*setup_.fit, shell)) continue;
      if (undersize_ && shell.undersize != undersize_) continue;
      if (const auto opens = thicker_by(shelf_.kind(*fitted), shell)) result.push_back({kind, *opens, false});
    }
    return result;
  }

  bool may_stay(std::optional<std::size_t> fitted) const {
    return !undersize_ || (fitted && shelf_.kind(*fitted).undersize == undersize_);
  }

  /// Where fitted halves may go nowhere else, one that stays is no matter of the shelf.
  int taken(const SideChoice& choice) const {
    if (!choice.kind || (choice.stays && !setup_.fit->swap)) return -1;
    return static_cast<int>(*choice.kind);
  }

  static WallDifference sum(const WallDifference& a, const WallDifference& b) {
    return {a.by + b.by, root_sum_of_squares(a.unsure, b.unsure)};
  }

  Cost cost(const WallDifference& opens, const SideChoice& upper, const SideChoice& lower) {
    const auto [found, fresh] = judged_.try_emplace({opens.by, opens.unsure});
    if (fresh) {
      Setup changed = setup_;
      grow_inside(changed, couple_, opens.by, opens.unsure);
      const FitResult result = judged(changed, couple_);
      found->second = {result.verdict == Verdict::in ? 0 : 1, std::min(off_target(*setup_.fit, result), kFarOff).pm()};
    }
    return {found->second.first, found->second.second, (upper.stays ? 0 : 1) + (lower.stays ? 0 : 1)};
  }

  Setup setup_;
  const Shelf& shelf_;
  const Couple& couple_;
  std::optional<Length> undersize_;
  std::map<std::pair<Length, Length>, std::pair<std::int64_t, std::int64_t>> judged_;  ///< failing, off; by what opens
};

}  // namespace

Seat seat_of(const Setup& setup, const Shelf& shelf, const Couple& couple, std::optional<Length> undersize) {
  return SeatFilling(setup, shelf, couple, undersize).fill();
}

}  // namespace tenth
