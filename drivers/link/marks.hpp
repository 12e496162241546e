#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// Undoes what PARMRK does to bytes (termios(3)): FF FF is one byte FF, FF 00 x is x with a parity or framing error (a
/// break is FF 00 00). A mark may be split between reads.
class Marks {
 public:
  std::vector<Received> take(std::span<const std::uint8_t> bytes);
  /// The port is gone: a mark that stays unfinished is one damaged byte.
  std::vector<Received> finish();

 private:
  enum class Seen { nothing, mark, mark_and_zero };
  Seen seen_ = Seen::nothing;
};

}  // namespace tenth::drivers
