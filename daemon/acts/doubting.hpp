#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "daemon/draft.hpp"

namespace tenth {

/// All readings of the ledger, in no order of engines.
std::vector<const Reading*> all_readings(const Bench& bench);

/// Appends `closed`, `void`, `keep` or `doubt` entries for these readings: one for each engine, so that every record
/// holds its own.
void append_by_engine(Draft& draft, const std::string& kind, const std::vector<std::int64_t>& seqs, const Json& body);

/// These readings become suspect by something that was found later.
void doubt_readings(Draft& draft, const std::vector<std::int64_t>& seqs, Doubt doubt,
                    std::optional<std::int64_t> setting);

}  // namespace tenth
