#pragma once

#include "rules/remedies/choice.hpp"
#include "rules/remedies/halves.hpp"
#include "rules/remedies/shelf.hpp"

namespace tenth {

/// One way to fill a seat. Empty: the half that sits there stays, and is none of the stock's.
struct Pair {
  std::optional<std::size_t> upper, lower;  ///< kinds of the shelf
  WallDifference opens;                     ///< how far the clearance grows
};

/// What a seat can hold, each pair with what it takes from the shelf and costs: not in, off target, halves moved.
struct Seat {
  Couple couple;
  std::vector<Pair> pairs;
  std::vector<Way> ways;  ///< one for each pair
};

/// `undersize`: both halves are for that size. The pair that sits there is the first, where it may stay.
Seat seat_of(const Setup& setup, const Shelf& shelf, const Couple& couple, std::optional<Length> undersize);

}  // namespace tenth
