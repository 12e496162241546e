#pragma once

#include "rules/remedies/setup.hpp"

namespace tenth {

/// One outside part with all that runs on it.
struct Journal {
  int index = 0;
  Length mean, least;           ///< over all its readings
  std::vector<Couple> couples;  ///< two where rods share a crankpin
};
struct Journals {
  std::vector<Journal> all;  ///< those that are measured, with all that runs on them
  bool complete = false;     ///< every one is
};
Journals journals_of(const Setup& setup);

/// The sizes to which journals can be ground together. Every figure that narrows it is named.
struct Window {
  std::optional<Length> floor, ceiling;
  std::string floor_by, ceiling_by;  ///< what forbids smaller, and larger: words for people
  int ceiling_index = 0;             ///< of the fit, where the ceiling comes from

  bool possible() const { return !floor || *floor <= *ceiling; }
  /// Which limits forbid it, and by how much.
  std::string conflict(Unit unit) const;
  /// The size in the window nearest to the ideal one; without an ideal the largest, which takes off least.
  Length nearest(std::optional<Length> ideal) const;
};

/// inside_max − upper ≤ s − tolerance and s + tolerance ≤ inside_min − lower for every couple, s ≤ least reading −
/// cleanup, s − tolerance ≥ smallest.
Window window_of(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals);

/// Mean of the inside parts less what the clearance should come to.
std::optional<Length> ideal_size(const Setup& setup, const std::vector<Journal>& journals);

/// The largest size that leaves a whole surface everywhere.
Length largest_clean(const Grind& grind, const std::vector<Journal>& journals);
/// It leaves a whole surface and is not past the last size.
bool can_be_ground_to(const Grind& grind, const std::vector<Journal>& journals, Length size);

}  // namespace tenth
