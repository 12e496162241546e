#pragma once

#include <map>
#include <set>
#include <span>
#include <string>

#include "schema/json/json.hpp"
#include "schema/ledger/fold.hpp"
#include "schema/store/ledger.hpp"

namespace tenth {

inline constexpr const char* kRecordFormat = "tenth-record";
inline constexpr int kRecordVersion = 1;

/// The entries that a record gives in full, by seq.
using Given = std::map<std::int64_t, Entry>;

/// The entries that a record of this engine gives in full: row 1, what names the engine, and all that those rest on.
/// `rows` run from 1 without a gap. Refused where a body is no JSON object.
Result<std::set<std::int64_t>> needed_entries(std::span<const Row> rows, const std::string& engine);

/// What a record says of its engine: made from the entries it gives and nothing else, by whoever writes or verifies it.
struct Figures {
  Json readings, check;
};

/// Refused where an entry cannot be folded (`false_at` is then its seq) or none of them makes the engine (0).
Result<Figures> figures_from(const Given& given, const std::string& engine, std::int64_t& false_at);

}  // namespace tenth
