#include "simulators/words.hpp"

#include <algorithm>
#include <charconv>

namespace tenth::simulators {

std::string_view Words::next() {
  if (words_.empty()) {
    fail("it breaks off: write " + right_);
    return {};
  }
  const auto word = words_.front();
  words_ = words_.subspan(1);
  return word;
}

std::string Words::text() {
  return std::string(next());
}

Amount Words::amount() {
  const auto word = next();
  const auto read = parse_amount(word);
  if (!read) fail(read.error());
  return read.value_or(Amount{});
}

int Words::whole(int least, int most) {
  const auto word = next();
  int number = least;
  const auto end = word.data() + word.size();
  const auto read = std::from_chars(word.data(), end, number);
  if (read.ec == std::errc() && read.ptr == end && number >= least && number <= most) return number;
  fail(not_understood(
      word, "a whole number from " + std::to_string(least) + " to " + std::to_string(most) + ", as in " + right_));
  return least;
}

Unit Words::unit() {
  const auto read = parse_unit(next());
  if (!read) fail(read.error());
  return read.value_or(Unit::mm);
}

std::size_t Words::choice(std::initializer_list<std::string_view> choices) {
  const auto word = next();
  const auto* found = std::ranges::find(choices, word);
  if (found != choices.end()) return static_cast<std::size_t>(found - choices.begin());
  fail(not_understood(word, right_));
  return 0;
}

bool Words::take(std::string_view word) {
  if (words_.empty() || words_.front() != word) return false;
  words_ = words_.subspan(1);
  return true;
}

bool Words::has_other_than(std::initializer_list<std::string_view> choices) const {
  return !words_.empty() && std::ranges::find(choices, words_.front()) == choices.end();
}

void Words::fail(const std::string& what) {
  if (!error_) error_ = what;
}

Result<void> Words::finish() {
  if (!words_.empty()) fail(not_understood(words_.front(), right_));
  if (error_) return tl::unexpected(*error_);
  return {};
}

std::vector<std::string_view> split(std::string_view line) {
  std::vector<std::string_view> words;
  while (true) {
    const auto begin = line.find_first_not_of(" \t");
    if (begin == std::string_view::npos) return words;
    line.remove_prefix(begin);
    const auto word = line.substr(0, line.find_first_of(" \t"));
    words.push_back(word);
    line.remove_prefix(word.size());
  }
}

std::string not_understood(std::string_view what, std::string_view right) {
  return "'" + std::string(what) + "' is not understood: write " + std::string(right);
}

namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

}  // namespace

Result<std::string> unescape(std::string_view text) {
  constexpr auto kRight = "\\xHH, \\r, \\n, \\t or \\\\";
  std::string bytes;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      bytes += text[i];
      continue;
    }
    const char kind = ++i < text.size() ? text[i] : ' ';
    if (kind == 'x' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 && hex_digit(text[i + 2]) >= 0) {
      bytes += static_cast<char>(hex_digit(text[i + 1]) * 16 + hex_digit(text[i + 2]));
      i += 2;
    } else if (const auto at = std::string_view("rnt\\").find(kind); at != std::string_view::npos) {
      bytes += "\r\n\t\\"[at];
    } else {
      return tl::unexpected(not_understood(text.substr(i - 1), kRight));
    }
  }
  return bytes;
}

}  // namespace tenth::simulators
