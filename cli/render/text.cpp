#include "cli/render/text.hpp"

#include <algorithm>
#include <cmath>

#include "schema/json/escape.hpp"

namespace tenth::cli {
namespace {

const Json* find(const Json& object, const char* key) {
  const auto found = object.find(key);
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

/// The places of one length. What no place ends (a size of the other unit) gets one more than usual.
int places_of(Length length, Unit unit) {
  constexpr int kMorePlaces = 2;
  const int usual = usual_places(unit);
  // The step of the last place: a tenth of a thou or a micrometre at first.
  std::int64_t step = unit == Unit::in ? kInch.pm() / 10'000 : Length::from_um(1).pm();
  for (int places = usual; places <= usual + kMorePlaces; ++places, step /= 10)
    if (length.pm() % step == 0) return places;
  return usual + 1;
}

bool starts_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

}  // namespace

std::string text(const Json& object, const char* key) {
  const Json* value = find(object, key);
  if (value == nullptr) return "";
  return printable(value->is_string() ? value->get<std::string>() : value->dump());
}

std::optional<Length> length(const Json& object, const char* key) {
  const Json* value = find(object, key);
  if (value == nullptr) return std::nullopt;
  // Differences of two lengths from outside are at most twice the longest.
  const double most = 2e-9 * static_cast<double>(kLongest.pm());
  if (!value->is_number() || std::abs(value->get<double>()) > most) throw BadAnswer(std::string(key) + " is no length");
  return length_from_mm(*value);
}

std::int64_t count(const Json& object, const char* key) {
  const Json* value = find(object, key);
  if (value == nullptr) return 0;
  if (!value->is_number_integer()) throw BadAnswer(std::string(key) + " is no whole number");
  return value->get<std::int64_t>();
}

std::vector<std::string> texts(const Json& object, const char* key) {
  std::vector<std::string> all;
  if (const Json* values = find(object, key))
    for (const auto& value : *values) all.push_back(printable(value.get<std::string>()));
  return all;
}

std::string place_text(const Json& object) {
  std::string place = text(object, "feature");
  if (place.empty()) return place;
  const auto label = text(object, "label");
  for (const auto& part : {label.empty() ? text(object, "index") : label, text(object, "level"), text(object, "axis")})
    if (!part.empty()) place += " " + part;
  return place;
}

std::string with_unit(Length value, Unit unit) {
  return fixed(value, unit, places_for({value}, unit)) + " " + std::string(name(unit));
}

std::string with_unit(const std::optional<Length>& value, Unit unit) {
  return value ? with_unit(*value, unit) : "-";
}

int places_for(const std::vector<Length>& lengths, Unit unit) {
  int places = usual_places(unit);
  for (const auto length : lengths) places = std::max(places, places_of(length, unit));
  return places;
}

std::string age_text(std::int64_t seconds) {
  if (seconds < 120) return std::to_string(seconds) + " s";
  if (seconds < 120 * 60) return std::to_string(seconds / 60) + " min";
  if (seconds < 48 * 3600) return std::to_string(seconds / 3600) + " h";
  return std::to_string(seconds / 86'400) + " days";
}

std::size_t width(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), starts_character));
}

std::string left(std::string_view text, std::size_t columns) {
  const auto used = width(text);
  return std::string(text) + std::string(used < columns ? columns - used : 0, ' ');
}

std::string right(std::string_view text, std::size_t columns) {
  const auto used = width(text);
  return std::string(used < columns ? columns - used : 0, ' ') + std::string(text);
}

std::string cut(std::string_view text, std::size_t columns) {
  if (width(text) <= columns) return std::string(text);
  std::size_t kept = 0;
  for (std::size_t seen = 0; kept < text.size(); ++kept)
    if (starts_character(text[kept]) && ++seen == columns) break;
  return std::string(text.substr(0, kept)) + "~";
}

std::string wrapped(std::string_view text, std::size_t indent, std::size_t first_indent) {
  constexpr std::size_t kColumns = 80;
  std::string all;
  std::size_t used = first_indent;
  for (bool first = true; !text.empty(); first = false) {
    const auto end = std::min(text.find(' '), text.size());
    const auto word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!first && used + 1 + width(word) > kColumns) {
      all.append("\n").append(indent, ' ').append(word);
      used = indent + width(word);
    } else {
      all.append(first ? "" : " ").append(word);
      used += width(word) + (first ? 0 : 1);
    }
  }
  return all + "\n";
}

}  // namespace tenth::cli
