#pragma once

#include "daemon/config.hpp"

namespace tenth {

/// Runs until SIGTERM, SIGINT or SIGHUP: opens the ledger, the socket and the gauges' ports, and stores what is under
/// way before it ends. Refused where it cannot begin, or could not store what was left at the end.
Result<void> run_daemon(const Options& options);

}  // namespace tenth
