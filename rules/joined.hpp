#pragma once

#include <string>
#include <string_view>

namespace tenth {

/// Words one after the other, for people: "top, middle, bottom".
template <class Words>
std::string joined(const Words& words, std::string_view between = ", ") {
  std::string all;
  for (const std::string_view word : words) {
    if (!all.empty()) all += between;
    all += word;
  }
  return all;
}

}  // namespace tenth
