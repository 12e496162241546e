#pragma once

#include <optional>

#include "rules/spec.hpp"
#include "schema/export/paper/drawing.hpp"

namespace tenth::paper {

/// What a bar shows: the least, mean and greatest of some figure, against its limits and a target.
struct Span {
  std::optional<Length> least, mean, greatest;
};

/// A small picture of figures against their two limits: the band between the limits is grey, the limits are upright
/// lines, the figures a thick bar with its mean, the target a small triangle. None where there is nothing to show.
std::optional<Drawing> bar(const Span& span, const Limits& limits, const std::optional<Length>& target);

}  // namespace tenth::paper
