#pragma once

#include <cstdint>
#include <string>

#include "schema/json/json.hpp"
#include "schema/ledger/bench.hpp"

namespace tenth {

/// One entry of the ledger as the fold sees it.
struct Entry {
  std::int64_t seq = 0;
  Json body;
  std::string hash;  ///< hex; empty while it is not on disk
};

/// False for an entry of a later version: an unknown kind, or a first row of a later format.
bool is_known(const Json& body);

/// Applies one entry, in order of seq. Entries that a record leaves out may be missing: what they gave is then absent.
/// Throws std::exception for a body that no version of Tenth wrote; the caller reports the ledger as false.
void apply(Bench& bench, const Entry& entry);

}  // namespace tenth
