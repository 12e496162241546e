#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "rules/length.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// An answer holds what no daemon of ours says.
struct BadAnswer : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Values of an answer as a person reads them. What is of another kind: BadAnswer, or an exception of the JSON library.
/// An absent key is as good as null; control characters are escaped.
std::string text(const Json& object, const char* key);
std::optional<Length> length(const Json& object, const char* key);
std::int64_t count(const Json& object, const char* key);
/// The texts of an array.
std::vector<std::string> texts(const Json& object, const char* key);

/// "bore 3 top thrust" out of the keys feature, label (else index), level and axis; empty without a feature.
std::string place_text(const Json& object);

/// A length with its unit, to a tenth or a micrometre, and finer where it is finer: "83.0104 mm".
std::string with_unit(Length value, Unit unit);
std::string with_unit(const std::optional<Length>& value, Unit unit);
/// The decimals that show all of these lengths as they are: the usual ones or up to two more.
int places_for(const std::vector<Length>& lengths, Unit unit);

/// "4 min": whole seconds, minutes, hours or days.
std::string age_text(std::int64_t seconds);

/// Columns on the screen, taking each character of UTF-8 for one.
std::size_t width(std::string_view text);
std::string left(std::string_view text, std::size_t columns);
std::string right(std::string_view text, std::size_t columns);
/// Cut to so many columns, with a mark where something was cut off.
std::string cut(std::string_view text, std::size_t columns);
/// Lines of at most 80 columns, broken at blanks; all but the first are indented. Ends with a line end.
std::string wrapped(std::string_view text, std::size_t indent, std::size_t first_indent);

}  // namespace tenth::cli
