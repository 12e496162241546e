#pragma once

#include "rules/remedies/stock.hpp"

namespace tenth {

/// How much thicker one wall is than another, and half the width of what is not known of it.
struct WallDifference {
  Length by, unsure;
};

/// By the walls where both are one number; else within a series by half the difference of the undersizes, since a half
/// for an undersize of u has a wall thicker by u / 2 (common practice, checked on published ladders of shells); else by
/// the middles of the makers' ranges. Empty: not known.
std::optional<WallDifference> thicker_by(const Shell& a, const Shell& b);

/// The half goes at this side of a seat with this label.
bool may_sit(const Shell& shell, Half side, const std::string& label);

/// What the fit asks of a half that is put in.
bool may_be_put_in(const Fit& fit, const Shell& shell);

/// What the fit asks of a pair of which a half is new. A half that is not in the stock (null) passes where nothing is
/// asked.
bool may_go_together(const Fit& fit, const Shell* upper, const Shell* lower);

}  // namespace tenth
