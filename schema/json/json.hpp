#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "rules/length.hpp"

namespace tenth {

using Json = nlohmann::json;

/// The one text of a JSON value: RFC 8785 (names in order of UTF-16 code units, shortest numbers, no white space).
/// Everything that leaves Tenth as JSON is written by this, so exact decimals stay exact.
/// Throws std::invalid_argument for what RFC 8785 refuses: NaN, infinity, a text that is not UTF-8.
std::string canonical(const Json& value);

/// A JSON text from outside, bounded: at most `most_bytes` and nested at most 32 deep, no doubled names.
/// Refused (code `json`) with the place of the error.
Result<Json> parse_json(std::string_view text, std::size_t most_bytes);

/// A length as a number of millimetres (exact: see `canonical`), or of picometres; null where empty.
Json mm(Length length);
Json mm(const std::optional<Length>& length);
Json pm(Length length);
Json pm(const std::optional<Length>& length);

/// The length in a number of millimetres that `mm` wrote, exactly.
Length length_from_mm(const Json& number);

/// Null where empty.
template <class T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}
inline Json text_or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

/// Null where 0: numbers of entries and of places begin at 1.
inline Json number_or_null(std::int64_t number) {
  return number == 0 ? Json(nullptr) : Json(number);
}

}  // namespace tenth
