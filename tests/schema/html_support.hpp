#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace tenth {

inline std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

inline bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// Every element that is opened is closed in its turn; what is wrong, or empty.
inline std::string unbalanced(const std::string& markup) {
  static const std::set<std::string> kVoid = {"meta", "!DOCTYPE"};
  std::vector<std::string> open;
  for (auto at = markup.find('<'); at != std::string::npos; at = markup.find('<', at + 1)) {
    const auto end = markup.find('>', at);
    if (end == std::string::npos) return "a tag without an end";
    const std::string inside = markup.substr(at + 1, end - at - 1);
    const bool closing = inside[0] == '/';
    const std::string tag = inside.substr(closing, inside.find_first_of(" />", closing) - closing);
    if (kVoid.contains(tag) || inside.back() == '/') continue;
    if (!closing)
      open.push_back(tag);
    else if (open.empty() || open.back() != tag)
      return "</" + tag + "> after " + (open.empty() ? "nothing" : open.back());
    else
      open.pop_back();
  }
  return open.empty() ? "" : "<" + open.back() + "> stays open";
}

}  // namespace tenth
