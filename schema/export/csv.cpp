#include <string>
#include <string_view>

#include "schema/export/exports.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

bool is_number(std::string_view text) {
  if (text.front() == '+' || text.front() == '-') text.remove_prefix(1);
  const bool digits_only = text.find_first_not_of("0123456789.") == std::string_view::npos;
  const bool a_digit = text.find_first_of("0123456789") != std::string_view::npos;
  return digits_only && a_digit && text.find('.') == text.rfind('.');
}

/// A spreadsheet runs a cell that begins like a formula; a number it may read.
bool looks_like_formula(std::string_view text) {
  constexpr std::string_view kBeginnings = "=+-@\t\r";
  return !text.empty() && kBeginnings.find(text.front()) != std::string_view::npos && !is_number(text);
}

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

std::string joined(const Json& list) {
  std::string out;
  for (const Json& item : list) out += (out.empty() ? "" : " ") + item.get<std::string>();
  return out;
}

std::string cell(const Json& value) {
  if (value.is_null()) return "";
  if (value.is_number() || value.is_boolean()) return canonical(value);
  const std::string text = value.is_array() ? joined(value) : value.get<std::string>();
  return quoted(looks_like_formula(text) ? "'" + text : text);
}

template <class Cell>
std::string row(Cell cell_of) {
  std::string line;
  for (const std::string& key : reading_keys()) line += (line.empty() ? "" : ",") + cell_of(key);
  return line + "\r\n";
}

}  // namespace

std::string csv(const Engine& engine) {
  std::string text = row([](const std::string& key) { return key; });
  for (const Json& reading : readings_json(engine, true))
    text += row([&](const std::string& key) { return cell(reading.at(key)); });
  return text;
}

}  // namespace tenth
