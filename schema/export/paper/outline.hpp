#pragma once

#include <vector>

#include "rules/engine.hpp"
#include "schema/export/paper/drawing.hpp"

namespace tenth::paper {

/// How sizes become radii on paper. The error is enlarged by a round number that the page writes beside the picture.
/// Only the picture is in floating point.
struct Enlargement {
  Length reference;   ///< drawn at the base radius: the middle of the limits, else of the sizes
  double per_pm = 0;  ///< of radius for a difference in diameter, already enlarged
  int times = 1;
};

/// One enlargement for all indices of a feature, so that they can be compared. `sizes` and limits both stay inside.
Enlargement enlargement(const Feature& feature, const std::vector<Length>& sizes);

/// Whether a feature has enough directions for its roundness to be drawn.
bool has_outline(const Feature& feature);

/// One index of a feature as a picture: a ring for each level, one beneath the other. Each ring shows the limits as
/// thin circles, and the diameters read across its axes joined by a closed line (left open while one is missing).
Drawing outlines(const Feature& feature, int index, const CountingMap& counts, const Enlargement& scale, Unit unit);

}  // namespace tenth::paper
