#pragma once

#include <string>

#include "rules/result.hpp"

namespace tenth::drivers {

/// Unix 98 pseudo-terminals have device numbers of their own (the kernel's list of devices: majors 136 to 143).
bool is_pseudo_terminal(int descriptor);

/// Takes an open port for us alone: flock and TIOCEXCL. Refused (`in_use`) where another program holds either.
///
/// The other side of a pseudo-terminal keeps it alive, and so keeps the TIOCEXCL of a program that was killed. Left
/// behind by one of ours (we mark ours) or while no process has the port open, it counts for nothing. Only root can get
/// past it at all, so only root sets it on a pseudo-terminal: else a killed daemon would lock out the next one.
Result<void> lock_port(int descriptor, const std::string& path);

/// Gives TIOCEXCL back; the flock goes with the descriptor. Safe on a dead port.
void unlock_port(int descriptor);

/// The refusal of a port that another program holds, with its name and process id where the system tells.
tl::unexpected<Refusal> in_use(const std::string& path);

}  // namespace tenth::drivers
