#pragma once

#include <string_view>

namespace tenth {

/// The word can be the name of a master: it is not blank and begins otherwise than a length, with no digit, sign or
/// point.
constexpr bool can_name_master(std::string_view word) {
  const std::size_t first = word.find_first_not_of(' ');
  return first != std::string_view::npos &&
         std::string_view("0123456789+-.,").find(word[first]) == std::string_view::npos;
}

}  // namespace tenth
