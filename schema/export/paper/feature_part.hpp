#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/export/paper/results.hpp"

namespace tenth::paper {

/// All indices of one feature: pictures of their outlines, or bars where roundness was not measured, and the figures.
/// Without blocks for a check.
Part feature_part(const Results& results, const Feature& feature);

/// What is asked of a feature and how it is measured, in one sentence.
std::string asked_words(const Feature& feature, Unit unit);

}  // namespace tenth::paper
