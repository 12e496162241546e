#include "drivers/link/overruns.hpp"

#include <linux/serial.h>
#include <sys/ioctl.h>

#include <utility>

namespace tenth::drivers {

void Overruns::mark(std::vector<Received>& bytes, std::optional<std::uint32_t> lost) {
  const auto before = std::exchange(before_, lost);
  if (!before || !lost || *before == *lost) return;
  bytes.insert(bytes.begin(), {0, true});
}

std::optional<std::uint32_t> lost_bytes(int descriptor) {
  serial_icounter_struct counts{};
  if (ioctl(descriptor, TIOCGICOUNT, &counts) != 0) return std::nullopt;
  return static_cast<std::uint32_t>(counts.overrun) + static_cast<std::uint32_t>(counts.buf_overrun);
}

}  // namespace tenth::drivers
