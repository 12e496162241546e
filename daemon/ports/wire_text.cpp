#include "daemon/ports/wire_text.hpp"

#include <vector>

namespace tenth {

std::string wire_text(std::span<const drivers::Received> bytes) {
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string text;
  for (const drivers::Received each : bytes) {
    const bool plain = each.byte >= 0x20 && each.byte <= 0x7E && each.byte != '\\' && !each.damaged;
    text += plain ? std::string(1, static_cast<char>(each.byte))
                  : std::string(each.damaged ? "\\!" : "\\x") + kHex[each.byte >> 4U] + kHex[each.byte & 0xFU];
  }
  return text;
}

std::string wire_text(std::string_view bytes) {
  std::vector<drivers::Received> received;
  for (const char c : bytes) received.push_back({static_cast<std::uint8_t>(c), false});
  return wire_text(received);
}

}  // namespace tenth
