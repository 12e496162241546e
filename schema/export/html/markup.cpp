#include "schema/export/html/markup.hpp"

#include <array>
#include <charconv>

#include "schema/json/escape.hpp"

namespace tenth::html_page {
namespace {

std::string hex_of(char c) {
  std::array<char, 8> out{};
  const auto end = std::to_chars(out.data(), out.data() + out.size(), static_cast<unsigned char>(c), 16).ptr;
  return {out.data(), end};
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : printable(valid_utf8(text))) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string styled(std::string_view text) {
  std::string out;
  for (const char c : printable(valid_utf8(text))) {
    const bool plain = c == ' ' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    const bool of_many_bytes = static_cast<unsigned char>(c) >= 0x80;  // no sign of a style sheet is
    out += plain || of_many_bytes ? std::string(1, c) : "\\" + hex_of(c) + " ";
  }
  return out;
}

std::string element(std::string_view opening, std::string_view inner) {
  const std::string_view tag = opening.substr(0, opening.find(' '));
  return "<" + std::string(opening) + ">" + std::string(inner) + "</" + std::string(tag) + ">";
}

std::string number(double value) {
  std::array<char, 32> out{};
  const auto end = std::to_chars(out.data(), out.data() + out.size(), value, std::chars_format::fixed, 2).ptr;
  std::string text(out.data(), end);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace tenth::html_page
