#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/world.hpp"
#include "schema/store/audit.hpp"

namespace tenth::cli {

/// What to audit. Paths are empty where there is none; one of them is not.
struct AuditAsk {
  std::string ledger, record;
  std::optional<Head> head;
};

struct Audit {
  Finding finding;
  std::vector<std::string> cannot_tell;
};

/// $XDG_STATE_HOME/tenth/ledger.db, ~/.local/state/tenth/ledger.db or the machine's.
std::string default_ledger(const World& world);

/// The ledger's chain and what its entries say, the record, and each against the other and the head. Refused where a
/// file cannot be read.
Result<Audit> run_audit(const AuditAsk& ask, World& world);

}  // namespace tenth::cli
