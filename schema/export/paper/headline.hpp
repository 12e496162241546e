#pragma once

#include "schema/export/paper/paper.hpp"

namespace tenth::paper {

/// What the engine is and who measured it when, as of the ledger's last entry.
Facts facts_of(const Engine& engine, const std::string& as_of);

/// The whole verdict with all that keeps it from being in.
Whole whole_verdict(const Spec& spec, const Report& report);

}  // namespace tenth::paper
