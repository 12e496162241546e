#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// Bytes that a port or the kernel had no room for are lost without a mark (PARMRK knows parity, framing and breaks
/// only), and a number that lost a digit may look right. The kernel counts them (TIOCGICOUNT).
class Overruns {
 public:
  /// `lost`: how many so far; nothing where the port does not count. Where there are more than at the last call, a
  /// damaged byte goes before what was read: the frame it falls into is a fault, and all numbers of its burst are
  /// suspect.
  void mark(std::vector<Received>& bytes, std::optional<std::uint32_t> lost);

 private:
  std::optional<std::uint32_t> before_;
};

/// The count of a serial port; a pseudo-terminal has none.
std::optional<std::uint32_t> lost_bytes(int descriptor);

}  // namespace tenth::drivers
