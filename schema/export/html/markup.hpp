#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/judge.hpp"
#include "rules/length.hpp"

namespace tenth::page {

/// Text as it may stand in an element or in a quoted attribute; control characters as \xHH.
std::string escaped(std::string_view text);

/// `<opening>inner</name>`, where `opening` is the name with its attributes. `inner` is markup.
std::string element(std::string_view opening, std::string_view inner);

/// A column of a table: its head in plain words, and the class that the style sheet knows its cells by.
struct Column {
  std::string_view head;
  std::string_view css_class;
};

/// A table whose head is repeated on every printed page; empty where there are no rows. Cells are markup; an empty one
/// shows a dash. A row of one cell spans the table.
using Cells = std::vector<std::string>;
std::string table(std::string_view css_class, const std::vector<Column>& columns, const std::vector<Cells>& rows);

/// A coordinate of a picture, with two places.
std::string coordinate(double value);

/// A length for people in the spec's unit, without its name; empty where there is none.
std::string figure(const std::optional<Length>& length, Unit unit);

/// A sign that is told from the others by its shape alone, and the word beside it.
std::string sign(Verdict verdict);
std::string mark(const std::optional<Verdict>& verdict);

}  // namespace tenth::page
