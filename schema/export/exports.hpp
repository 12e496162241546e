#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "schema/export/paper/paper.hpp"
#include "schema/ledger/bench.hpp"
#include "schema/store/audit.hpp"

namespace tenth {

/// CSV of all readings of one engine (format: `schema/export.md`).
std::string csv(const Engine& engine);

/// A paper as one self-contained HTML file. The same paper gives the same bytes.
std::string html(const paper::Paper& paper);

/// A paper as pages that print on A4 and on Letter, in any script that the machine has letters for. The same paper on
/// the same machine gives the same bytes. `told` hears of every page.
std::string pdf(const paper::Paper& paper, paper::Sheet sheet, const paper::PageTold& told = {});

/// The JSON build record of one engine over all rows of the ledger, from row 1 without a gap.
/// Refused (4) where the ledger has no such engine.
Result<std::string> record(std::span<const Row> rows, const std::string& engine, const std::string& made_at,
                           const std::string& made_by);

struct RecordFinding : Finding {
  std::vector<Digest> hashes;       ///< of the entries from 1 on, as the record chains them
  std::set<std::int64_t> withheld;  ///< entries given by their digests alone
  std::string engine;
};

/// Verifies a record as `tenth audit --record` promises (see `schema/export.md`). Refused where it cannot be read.
Result<RecordFinding> audit_record(std::string_view text);
/// The first entry that a record withholds and its ledger's rows say is the engine's, or rested on; nothing where there
/// is none. Refused where the rows cannot be read.
Result<std::optional<std::int64_t>> wrongly_withheld(const RecordFinding& record, std::span<const Row> rows);

}  // namespace tenth
