#pragma once

#include <set>
#include <string>
#include <vector>

#include "rules/judge.hpp"
#include "rules/outlying.hpp"
#include "rules/returned.hpp"
#include "schema/export/paper/paper.hpp"

namespace tenth::paper {

/// What was measured and how it was judged, of one stage of an engine.
struct Results {
  const Engine& engine;
  Report report;
  CountingMap counts;
  std::vector<Outlying> outliers;
  std::vector<Returned> returned;
};

Results results_of(const Engine& engine);

/// The engine as it was found: without its later stages, parts, pairings and ways to other shops, so that no reading or
/// answer of theirs counts.
Engine as_found(const Engine& engine);
/// Features that a later stage or another part has changed.
std::set<std::string> reworked(const Engine& engine);

/// Every feature, clearance, spread and check; with `only`, those features and what they have part in.
std::vector<Part> results_parts(const Results& results, const std::set<std::string>* only = nullptr);

}  // namespace tenth::paper
