#pragma once

#include "rules/remedies/remedy.hpp"
#include "schema/export/paper/paper.hpp"
#include "schema/export/paper/results.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth::paper {

/// What a sheet for the machine shop is about.
using Features = std::vector<const Feature*>;
bool is_among(const Features& features, const std::string& name);

/// Remedies that need no stock file and work on these features.
std::vector<Remedy> advice_on(const Engine& engine, const Features& features);

/// What is to be done: the choices that may be about these features, advice, and free rows.
Part work_part(const Bench& bench, const Engine& engine, const Features& features);

/// Sizes of one feature: asked for in both units, measured at each index and with what, and room for those after.
Part sizes_part(const Results& results, const Feature& feature);

}  // namespace tenth::paper
