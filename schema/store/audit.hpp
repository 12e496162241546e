#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "schema/store/ledger.hpp"

namespace tenth {

/// What an audit found. `ok` false: `first_bad` is the first row that is not what the chain says, `why` says so;
/// `entries` and `head` are then those of the good rows before it.
struct Finding {
  bool ok = true;
  std::int64_t entries = 0;
  Head head;
  std::optional<std::int64_t> first_bad;
  std::string why;
};

/// Walks the ledger from row 1: seq without a gap, bodies canonical JSON objects with a kind and a time, hashes as the
/// chain gives them. What was cut off at the end it cannot tell: that takes a head from elsewhere (`has_head`).
/// `each`, if given, sees every good row in order. Refused where the file cannot be read.
Result<Finding> audit_ledger(const Ledger& ledger, const std::function<void(const Row&)>& each = {});

/// True where the ledger's row `seq` has this hash.
Result<bool> has_head(const Ledger& ledger, std::int64_t seq, const Digest& hash);

}  // namespace tenth
