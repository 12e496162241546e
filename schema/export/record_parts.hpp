#pragma once

#include <map>
#include <string>

#include "schema/json/json.hpp"
#include "schema/ledger/fold.hpp"

namespace tenth {

inline constexpr const char* kRecordFormat = "tenth-record";
inline constexpr int kRecordVersion = 1;

/// The entries that a record gives in full, by seq.
using Given = std::map<std::int64_t, Entry>;

/// What a record says of its engine: made from the entries it gives and nothing else, by whoever writes or verifies it.
struct Figures {
  Json readings, check;
};

/// Refused where an entry cannot be folded (`false_at` is then its seq) or none of them makes the engine (0).
Result<Figures> figures_from(const Given& given, const std::string& engine, std::int64_t& false_at);

}  // namespace tenth
