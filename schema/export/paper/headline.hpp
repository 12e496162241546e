#pragma once

#include "schema/export/paper/paper.hpp"

namespace tenth::paper {

/// What the engine is, as of the ledger's last entry; with the engine also who measured it, and when.
Facts facts_of(const Spec& spec, const std::string& as_of);
Facts facts_of(const Engine& engine, const std::string& as_of);

/// The whole verdict with all that keeps it from being in.
Whole whole_verdict(const Spec& spec, const Report& report);

}  // namespace tenth::paper
