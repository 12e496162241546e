#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/spec.hpp"

namespace tenth {

/// The wall of a bearing half, 90 degrees from the split, coating included: measured, or between a maker's two limits.
/// A range counts as its middle; half its width joins the uncertainty.
struct Wall {
  Length least, most;
  bool known() const { return least == most; }
  friend bool operator==(const Wall&, const Wall&) = default;
};

enum class WallBy { measured, maker };

/// One kind of bearing half on the shelf. A pair in a box is two halves.
struct Shell {
  std::string id;  ///< the shop's own name
  std::string feature;
  Half half = Half::either;
  std::vector<std::string> places;  ///< labels of the positions where it can sit; empty: all
  std::string series;               ///< halves of one series differ by half their undersize; empty: of none
  std::optional<Length> undersize;  ///< journal size it is meant for, below standard; negative gives more clearance
  std::optional<Wall> wall;
  WallBy wall_by = WallBy::measured;
  bool coated = false;  ///< a fact only: never subtracted a second time
  int count = 1;        ///< halves lying free; those fitted are not among them
};

/// A spare piston, lifter or ring. Of a ring the size is its gap as checked in the bore.
struct SparePart {
  std::string id, feature;
  Length size;
  int count = 1;
};

/// What may be asked of a crank grinder.
struct Grind {
  std::string feature;
  Limits standard;                 ///< new limits at undersize 0, both
  std::vector<Length> steps;       ///< undersizes for which shells can be had, least first
  bool any_size = false;           ///< a size between steps may be asked for
  Length tolerance;                ///< plus or minus, as the grinder keeps it
  Length cleanup;                  ///< least removal that leaves a whole surface
  std::optional<Length> smallest;  ///< last size
  bool all_alike = true;           ///< one ground: all of this feature, one size
  std::string hardening;           ///< a caution that is printed
};

struct Hone {
  std::string feature;
  Length most;  ///< largest enlargement allowed from here, of the diameter, per bore
};

/// What lies on the shelf and what may be asked for. Features that an engine lacks are of no concern to it.
struct Stock {
  std::string title;
  Unit unit = Unit::mm;
  std::vector<Shell> shells;
  std::vector<SparePart> parts;
  std::vector<Grind> grinds;
  std::vector<Hone> hones;
};

}  // namespace tenth
