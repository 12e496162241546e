#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/ledger/bench.hpp"
#include "schema/store/ledger.hpp"

namespace tenth::paper {

// All papers bear `head`, that of the chain, and as their time that of its entry.

/// What is handed over of an engine: in the order of what was done, found, decided and left; then who measured it with
/// what, and how to check it.
Paper build_record(const Bench& bench, const Engine& engine, const Head& head);

}  // namespace tenth::paper
