#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace tenth {

/// The words of an enumeration, in the order of its values.
template <class Enum, std::size_t count>
struct Names {
  std::array<std::string_view, count> words;

  constexpr std::string_view of(Enum value) const { return words[static_cast<std::size_t>(value)]; }
  constexpr std::optional<Enum> find(std::string_view word) const {
    for (std::size_t i = 0; i < count; ++i)
      if (words[i] == word) return static_cast<Enum>(i);
    return std::nullopt;
  }
};

}  // namespace tenth
