#pragma once

#include <vector>

#include "cli/context.hpp"
#include "schema/ledger/bench.hpp"
#include "schema/store/ledger.hpp"

namespace tenth::cli {

/// The ledger's rows up to the head at the time of asking, and what they add up to.
struct LedgerCopy {
  std::vector<Row> rows;
  Head head;
  Bench bench;
};

/// Fetched from the daemon page by page.
Result<LedgerCopy> copy_ledger(Context& context);

/// A ledger's body applied to the bench; what no version of Tenth wrote is refused with its reason.
Result<bool> fold_row(Bench& bench, const Row& row);

}  // namespace tenth::cli
