#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace tenth::drivers {

/// The values of exactly `count` hexadecimal digits of either case; empty for anything else.
template <std::size_t count>
std::optional<std::array<unsigned, count>> hex_digits(std::string_view frame) {
  if (frame.size() != count) return std::nullopt;
  std::array<unsigned, count> values{};
  for (std::size_t i = 0; i < count; ++i) {
    const auto found = std::string_view("0123456789ABCDEF0123456789abcdef").find(frame[i]);
    if (found == std::string_view::npos) return std::nullopt;
    values[i] = static_cast<unsigned>(found % 16);
  }
  return values;
}

}  // namespace tenth::drivers
