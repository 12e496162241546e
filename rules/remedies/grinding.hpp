#pragma once

#include "rules/remedies/journals.hpp"
#include "rules/remedies/offer.hpp"

namespace tenth {

/// What the stock says of grinding a feature; null: nothing.
const Grind* grind_of(const Stock& stock, const std::string& feature);

/// The journals at these sizes, with what has to be said of it; its figures and text are still to be filled.
Offer ground(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals,
             const std::vector<Length>& sizes);
void finish(Offer& offer, const Setup& setup, const Grind& grind);

/// The middle of the standard limits less a step.
Length size_of_step(const Grind& grind, Length step);

/// Each journal whose fit is bad, by itself.
std::optional<Offer> single_journals(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals,
                                     Obstacles& obstacles);

}  // namespace tenth
