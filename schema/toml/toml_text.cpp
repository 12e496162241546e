#include "schema/toml/toml_text.hpp"

#include <algorithm>
#include <utility>

namespace tenth::toml_file {

TomlText::TomlText(std::string_view text, std::string file, std::string what)
    : text_(text), file_(std::move(file)), what_(std::move(what)) {
  lines_.push_back(0);
  for (std::size_t at = 0; at < text_.size(); ++at) {
    const bool within_character = (static_cast<unsigned char>(text_[at]) & 0xC0U) == 0x80U;
    if (!within_character) characters_.push_back(at);
    if (text_[at] == '\n') lines_.push_back(characters_.size());
  }
}

void TomlText::wrong(const toml::source_position& where, const std::string& what, std::string remedy) {
  if (first_wrong_) return;
  const std::string place = file_ + ":" + std::to_string(where.line) + ":" + std::to_string(where.column);
  first_wrong_ = Refusal{Exit::refused, what_, place + ": " + what, std::move(remedy)};
}

std::optional<Length> TomlText::length(const toml::node& node, std::string_view key) {
  const std::string what = std::string(key) + ": ";
  if (!node.is_string() && !node.is_number()) {
    wrong(node, what + "this is no length", "write a number, or text with a unit such as \"83.010 mm\"");
    return std::nullopt;
  }
  if (!unit && node.is_number()) {
    wrong(node, what + "the unit of this number is not known", "write unit = \"mm\" or unit = \"in\" at the top");
    return std::nullopt;
  }
  const auto length =
      node.is_string() ? parse_length(node.as_string()->get(), unit) : length_from_decimal(literal(node), *unit);
  if (length) return *length;
  wrong(node, what + length.error().message, length.error().remedy);
  return std::nullopt;
}

std::string TomlText::literal(const toml::node& number) const {
  const auto begin = number.source().begin;
  const std::size_t from = characters_.at(lines_.at(begin.line - 1) + begin.column - 1);
  std::string digits(text_.substr(from, text_.find_first_of(" \t\r\n,]}#", from) - from));
  std::erase(digits, '_');
  return digits;
}

std::string TomlText::shown(Length length) const {
  constexpr int kFinerThanATenth = 6;
  return unit == Unit::in ? fixed(length, Unit::in, kFinerThanATenth) + " in" : exact_mm(length) + " mm";
}

}  // namespace tenth::toml_file
