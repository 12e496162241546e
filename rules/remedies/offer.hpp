#pragma once

#include "rules/remedies/setup.hpp"

namespace tenth {

/// A remedy, and the fit as it would be afterwards: what a second remedy starts from.
struct Offer {
  Remedy remedy;
  Setup after;
};

/// Why a sort of remedy does not help. Told only where nothing that is undone as easily, or more easily, is enough.
struct Obstacle {
  NoRemedy none;
  Undo undo = Undo::free;
};
using Obstacles = std::vector<Obstacle>;

/// The best choice of bearing halves from the stock and from the seats. `undersize`: halves for that size alone, in
/// every seat. Empty: none would be better than what is there.
std::optional<Offer> shells(const Setup& setup, const Stock& stock, Obstacles& obstacles,
                            std::optional<Length> undersize = {});

/// The best matching of the outside parts to the inside parts; with spares from the stock, or without stock among those
/// of the engine.
std::optional<Offer> match(const Setup& setup, const Stock* spares, Obstacles& obstacles);

/// Sizes to ask a crank grinder for: one common size, else a step with its shells, else single journals.
std::vector<Offer> grind(const Setup& setup, const Stock& stock, Obstacles& obstacles);

/// Grinding and choosing halves for it, where neither alone is enough: the grinding, then the halves. Where all
/// journals of one size with some halves are enough such a size is found, or a caution says that not every one was
/// tried; that no other lies nearer to the target is not proven. Single journals are ground for the halves that are
/// fitted, then halves are chosen for them: not proven to be the best.
std::optional<std::pair<Offer, Offer>> grind_and_fit(const Setup& setup, const Stock& stock);

/// How far to hone each bore whose fit is too tight.
std::optional<Offer> hone(const Setup& setup, const Stock& stock, Obstacles& obstacles);

/// How much to file off each gap that is too small, and spares for those too large, where the stock has some.
std::vector<Remedy> gaps(const Engine& engine, const Feature& feature, const Stock* stock, Obstacles& obstacles);

}  // namespace tenth
