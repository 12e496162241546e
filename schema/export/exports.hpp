#pragma once

#include <filesystem>
#include <span>
#include <string>

#include "schema/ledger/bench.hpp"
#include "schema/store/audit.hpp"

namespace tenth {

/// CSV of all readings of one engine (format: `schema/export.md`).
std::string csv(const Engine& engine);

/// The printable page of one engine: self-contained HTML. `head` is written on it as SEQ:HEX.
std::string html(const Bench& bench, const Engine& engine, const Head& head, const std::string& made_at);

/// The JSON build record of one engine over all rows of the ledger, from row 1 without a gap.
/// Refused (4) where the ledger has no such engine.
Result<std::string> record(std::span<const Row> rows, const std::string& engine, const std::string& made_at,
                           const std::string& made_by);

/// Verifies a record as `tenth audit --record` promises (see `schema/export.md`). Refused where it cannot be read.
Result<Finding> audit_record(std::string_view text);

}  // namespace tenth
