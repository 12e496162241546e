#pragma once

#include <string>

#include "rules/remedies/remedy.hpp"
#include "schema/json/json.hpp"

namespace tenth {

/// What a list of remedies was made for.
struct RemedyHead {
  std::string engine;
  std::int64_t seq = 0;             ///< of the ledger's last entry when it was made
  std::string stock_title, sha256;  ///< the stock file's, hex; both empty where none was given
};

/// `remedies --json` (keys: `schema/wire.md`).
Json remedies_json(const RemedyHead& head, const RemedyList& list);

}  // namespace tenth
