#include "schema/json/escape.hpp"

#include "schema/json/utf8.hpp"

namespace tenth {
namespace {

unsigned char octet(char c) {
  return static_cast<unsigned char>(c);
}

bool continues(std::string_view text, std::size_t at, unsigned char lowest = 0x80, unsigned char highest = 0xBF) {
  return at < text.size() && octet(text[at]) >= lowest && octet(text[at]) <= highest;
}

void append_hex(std::string& out, unsigned char byte) {
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  out += "\\x";
  out += kDigits[byte >> 4];
  out += kDigits[byte & 0xF];
}

/// U+202A to U+202E and U+2066 to U+2069 turn round what follows: a size would read backwards.
bool turns_text(std::string_view character) {
  if (character.size() != 3 || octet(character[0]) != 0xE2) return false;
  const unsigned char second = octet(character[1]), third = octet(character[2]);
  return (second == 0x80 && third >= 0xAA && third <= 0xAE) || (second == 0x81 && third >= 0xA6 && third <= 0xA9);
}

}  // namespace

std::size_t utf8_character(std::string_view text) {
  if (text.empty()) return 0;
  const unsigned char lead = octet(text[0]);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return continues(text, 1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned char lowest = lead == 0xE0 ? 0xA0 : 0x80;   // below: overlong
    const unsigned char highest = lead == 0xED ? 0x9F : 0xBF;  // above: surrogates
    return continues(text, 1, lowest, highest) && continues(text, 2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned char lowest = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned char highest = lead == 0xF4 ? 0x8F : 0xBF;  // above: past U+10FFFF
    return continues(text, 1, lowest, highest) && continues(text, 2) && continues(text, 3) ? 4 : 0;
  }
  return 0;
}

std::string escape_bytes(std::string_view bytes) {
  std::string out;
  for (const char c : bytes) {
    if (octet(c) < 0x20 || octet(c) > 0x7E || c == '\\') {
      append_hex(out, octet(c));
    } else {
      out += c;
    }
  }
  return out;
}

std::string printable(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = utf8_character(text);
    const unsigned char first = octet(text[0]);
    const bool c0 = first < 0x20 || first == 0x7F;
    const bool c1 = length == 2 && first == 0xC2 && octet(text[1]) < 0xA0;
    if (length == 0 || c0) {
      append_hex(out, first);
    } else if (c1) {
      append_hex(out, octet(text[1]));
    } else if (turns_text(text.substr(0, length))) {
      for (const char c : text.substr(0, length)) append_hex(out, octet(c));
    } else {
      out += text.substr(0, length);
    }
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

std::string valid_utf8(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = utf8_character(text);
    out += length == 0 ? "\xEF\xBF\xBD" : text.substr(0, length);
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

}  // namespace tenth
