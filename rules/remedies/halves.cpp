#include "rules/remedies/halves.hpp"

#include <algorithm>
#include <array>

#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

Length middle(const Wall& wall) {
  return mean(std::array{wall.least, wall.most});
}

/// Rounded up: an uncertainty is never told too small.
Length half_width(const Wall& wall) {
  return Length::from_pm(((wall.most - wall.least).pm() + 1) / 2);
}

bool of_one_series(const Shell& a, const Shell& b) {
  return !a.series.empty() && a.series == b.series && a.undersize && b.undersize;
}

/// The wall of one may be at most so much thicker than that of the other.
bool walls_agree(const Fit& fit, const WallDifference& upper_over_lower) {
  if (fit.wall_difference && upper_over_lower.by.magnitude() > *fit.wall_difference) return false;
  if (fit.thicker == Half::upper) return upper_over_lower.by >= Length();
  if (fit.thicker == Half::lower) return upper_over_lower.by <= Length();
  return true;
}

}  // namespace

std::optional<WallDifference> thicker_by(const Shell& a, const Shell& b) {
  if (a.id == b.id) return WallDifference{};
  if (a.wall && b.wall && a.wall->known() && b.wall->known()) return WallDifference{a.wall->least - b.wall->least, {}};
  if (of_one_series(a, b))
    return WallDifference{Length::from_pm(divide_rounded((*a.undersize - *b.undersize).pm(), 2)), {}};
  if (!a.wall || !b.wall) return std::nullopt;
  return WallDifference{middle(*a.wall) - middle(*b.wall),
                        root_sum_of_squares(half_width(*a.wall), half_width(*b.wall))};
}

bool may_sit(const Shell& shell, Half side, const std::string& label) {
  if (shell.half != Half::either && shell.half != side) return false;
  return shell.places.empty() || std::ranges::find(shell.places, label) != shell.places.end();
}

bool may_be_put_in(const Fit& fit, const Shell& shell) {
  return fit.coated == Coated::may || shell.coated == (fit.coated == Coated::must);
}

bool may_go_together(const Fit& fit, const Shell* upper, const Shell* lower) {
  const bool walls_asked = fit.wall_difference || fit.thicker;
  if (upper == nullptr || lower == nullptr) return fit.mix_halves && !walls_asked;
  if (!fit.mix_halves && (!of_one_series(*upper, *lower) || upper->undersize != lower->undersize)) return false;
  if (!walls_asked) return true;
  const auto difference = thicker_by(*upper, *lower);
  return difference && walls_agree(fit, *difference);
}

}  // namespace tenth
