#pragma once

#include <vector>

#include "schema/export/paper/paper.hpp"
#include "schema/export/paper/results.hpp"

namespace tenth::paper {

/// What a reader asks beneath the figures of a feature: which repeats do not fit the others, and whether parts that
/// came back from another shop are as they were asked for. Empty where there is neither.
std::vector<Block> feature_notes(const Results& results, const Feature& feature);

/// "( ) barrel 0.004", the shape found with a sign of its own, and what was meant where it is another; empty where none
/// is asked for or found.
std::string shape_words(const FeatureResult& result, Unit unit);

}  // namespace tenth::paper
