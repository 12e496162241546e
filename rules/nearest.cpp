#include "rules/nearest.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

namespace tenth {

namespace {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);  // distances from a[0..i) to every beginning of b
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest(std::string_view word, std::span<const std::string> candidates) {
  constexpr std::size_t kLongestWord = 64;  // nobody mistypes more than that
  if (word.size() > kLongestWord) return {};
  // More than about a third of the letters wrong is another word, not a slip.
  std::size_t best = word.size() < 3 ? 1 : (word.size() + 1) / 3 + 1;
  std::string found;
  for (const auto& candidate : candidates) {
    if (candidate.size() > kLongestWord) continue;
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best) {
      best = distance;
      found = candidate;
    }
  }
  return found;
}

std::string unique_beginning(std::string_view word, std::span<const std::string> candidates) {
  if (std::find(candidates.begin(), candidates.end(), word) != candidates.end()) return std::string(word);
  std::string found;
  for (const auto& candidate : candidates) {
    if (word.empty() || !candidate.starts_with(word)) continue;
    if (!found.empty()) return {};
    found = candidate;
  }
  return found;
}

std::string quoted(std::string_view word) {
  constexpr std::size_t kMost = 60;
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string shown = "'";
  std::string_view kept = word.substr(0, kMost);
  const auto cuts_utf8 = [&] { return (static_cast<unsigned char>(word[kept.size()]) & 0xC0U) == 0x80U; };
  while (!kept.empty() && kept.size() < word.size() && cuts_utf8()) kept.remove_suffix(1);
  for (const char c : kept) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x20 && byte != 0x7F)
      shown += c;
    else
      shown.append("\\x").append(1, kHex[byte >> 4U]).append(1, kHex[byte & 0xFU]);
  }
  return shown + (kept.size() < word.size() ? "…'" : "'");
}

}  // namespace tenth
