#include "drivers/link/marks.hpp"

#include <utility>

namespace tenth::drivers {
namespace {

constexpr std::uint8_t kMark = 0xFF;

}  // namespace

std::vector<Received> Marks::take(std::span<const std::uint8_t> bytes) {
  std::vector<Received> received;
  for (const std::uint8_t byte : bytes) {
    switch (std::exchange(seen_, Seen::nothing)) {
      case Seen::nothing:
        if (byte == kMark) {
          seen_ = Seen::mark;
        } else {
          received.push_back({byte, false});
        }
        break;
      case Seen::mark:
        if (byte == 0) {
          seen_ = Seen::mark_and_zero;
        } else {
          // A lone FF can only have waited since before the port was set to mark bytes.
          received.push_back({kMark, false});
          if (byte != kMark) received.push_back({byte, false});
        }
        break;
      case Seen::mark_and_zero:
        received.push_back({byte, true});
        break;
    }
  }
  return received;
}

std::vector<Received> Marks::finish() {
  if (std::exchange(seen_, Seen::nothing) == Seen::nothing) return {};
  return {{kMark, true}};
}

}  // namespace tenth::drivers
