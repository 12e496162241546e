#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/ledger/bench.hpp"
#include "schema/store/ledger.hpp"

namespace tenth::paper {

// All papers bear `head`, that of the chain, and as their time that of its entry.

/// What is handed over of an engine: in the order of what was done, found, decided and left; then who measured it with
/// what, and how to check it.
Paper build_record(const Bench& bench, const Engine& engine, const Head& head);

/// Every place of the spec in the order of a round, with its limits and room to write in by hand.
Paper worksheet(const Bench& bench, const Engine& engine, const Head& head);

/// For whoever works on these features: what was decided, sizes asked for in both units, sizes measured and with what,
/// what to leave alone, cautions, and room for the sizes after. `features` are the engine's own, and no checks.
Paper shop_sheet(const Bench& bench, const Engine& engine, const std::vector<const Feature*>& features,
                 const Head& head);

}  // namespace tenth::paper
