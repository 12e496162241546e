#include "schema/import/import_file.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "rules/joined.hpp"
#include "rules/nearest.hpp"
#include "schema/import/csv_text.hpp"
#include "schema/json/local_day.hpp"
#include "schema/json/time.hpp"
#include "schema/json/utf8.hpp"

namespace tenth {
namespace {

constexpr std::array<const char*, 10> kColumns = {"feature", "index", "level",    "axis",  "value",
                                                  "unit",    "time",  "operator", "gauge", "note"};
constexpr std::size_t kMostText = 1000;  // bytes of an operator, a gauge or a note

std::string trimmed(std::string_view cell) {
  const auto from = cell.find_first_not_of(" \t");
  if (from == std::string_view::npos) return "";
  return std::string(cell.substr(from, cell.find_last_not_of(" \t") - from + 1));
}

/// Which cell holds which column.
using Header = std::map<std::string, std::size_t>;

class Table {
 public:
  Table(const std::string& file, const Spec& spec, Unit bare, char separator)
      : file_(file), spec_(spec), bare_(bare), comma_decimals_(separator == ';') {}

  Result<std::vector<ImportRow>> read(const std::vector<CsvRow>& rows) {
    TENTH_TRY(header_, header(rows.front()));
    width_ = rows.front().cells.size();
    std::vector<ImportRow> all;
    for (auto row = rows.begin() + 1; row != rows.end(); ++row) {
      TENTH_TRY(ImportRow read, one(*row));
      all.push_back(std::move(read));
    }
    if (all.empty()) return wrong(rows.front(), "there is no row below the header", "add one row for each figure");
    return all;
  }

 private:
  Result<Header> header(const CsvRow& row) const {
    const std::vector<std::string> known(kColumns.begin(), kColumns.end());
    Header header;
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const std::string name = trimmed(row.cells[i]);
      if (std::ranges::find(known, name) == known.end()) {
        const std::string near = nearest(name, known);
        return wrong(row, "there is no column " + quoted(name),
                     near.empty() ? "the columns are " + joined(known) : "did you mean " + near + "?");
      }
      if (!header.emplace(name, i).second)
        return wrong(row, "column " + name + " stands there twice", "keep one of them");
    }
    for (const char* needed : {"feature", "value"})
      if (!header.contains(needed))
        return wrong(row, std::string("column ") + needed + " is missing", "add it to the first line");
    return header;
  }

  Result<ImportRow> one(const CsvRow& row) const {
    if (row.cells.size() != width_)
      return wrong(row,
                   "the line has " + std::to_string(row.cells.size()) + " cells, the header " + std::to_string(width_),
                   "give every line the same cells; a cell that holds the separator goes between quotes");
    ImportRow read;
    read.line = row.line;
    TENTH_TRY(read.place, place(row));
    TENTH_TRY(read.value, value(row, read));
    read.time = cell(row, "time");
    if (!read.time.empty() && !wall_us_from(read.time) && !is_day(read.time))
      return wrong(row, quoted(read.time) + " is no time", "write it like 2026-03-01, or 2026-03-01T08:15:00Z");
    for (const auto& [name, into] :
         {std::pair("operator", &read.operator_name), std::pair("gauge", &read.gauge), std::pair("note", &read.note)}) {
      *into = cell(row, name);
      if (into->size() > kMostText) return wrong(row, std::string(name) + " is longer than 1000 bytes", "shorten it");
    }
    return read;
  }

  Result<Place> place(const CsvRow& row) const {
    std::vector<std::string> words;
    for (const char* name : {"feature", "index", "level", "axis"})
      if (auto word = cell(row, name); !word.empty()) words.push_back(std::move(word));
    auto found = find_place(spec_, words);
    if (!found) return wrong(row, found.error().message, found.error().remedy);
    if (spec_.find(found->feature)->kind == Kind::check)
      return wrong(row, found->feature + " is a check and has no size", "leave the line out, and answer it by hand");
    return *found;
  }

  Result<Length> value(const CsvRow& row, ImportRow& read) const {
    read.text = cell(row, "value");
    TENTH_TRY(std::string number, pointed(row, read.text));
    if (const auto unit = cell(row, "unit"); !unit.empty()) number += " " + unit;
    auto length = parse_length(number, bare_);
    if (!length) return wrong(row, length.error().message, length.error().remedy);
    read.unit = unit_typed(number, bare_);
    return *length;
  }

  /// With a comma as the decimal mark a point can only part thousands, unless it cannot: "0.027".
  Result<std::string> pointed(const CsvRow& row, const std::string& text) const {
    if (!comma_decimals_) return text;
    std::string number = text;
    const bool comma = number.find(',') != std::string::npos, point = number.find('.') != std::string::npos;
    std::ranges::replace(number, comma ? ',' : '.', comma ? '.' : ',');
    const bool doubtful =
        point && parse_length(text, bare_) && !parse_length(number, bare_);  // "83,010" is refused there too
    if (doubtful || (point && comma))
      return wrong(row, quoted(text) + " has a point where this table has decimal commas",
                   "write the decimal mark as a comma, and no other mark");
    return point ? text : number;
  }

  std::string cell(const CsvRow& row, const char* name) const {
    const auto found = header_.find(name);
    return found == header_.end() ? "" : trimmed(row.cells[found->second]);
  }

  tl::unexpected<Refusal> wrong(const CsvRow& row, const std::string& what, const std::string& remedy) const {
    return refuse("import", file_ + ":" + std::to_string(row.line) + ": " + what, remedy);
  }

  const std::string& file_;
  const Spec& spec_;
  Unit bare_;
  bool comma_decimals_;
  Header header_;
  std::size_t width_ = 0;
};

/// Whether every character is one, and which line the first bad one is on.
std::optional<int> bad_line(std::string_view text) {
  int line = 1;
  while (!text.empty()) {
    const std::size_t length = utf8_character(text);
    if (length == 0 || text.front() == '\0') return line;
    if (text.front() == '\n') ++line;
    text.remove_prefix(length);
  }
  return std::nullopt;
}

}  // namespace

Result<std::vector<ImportRow>> read_import(std::string_view text, const std::string& file, const Spec& spec,
                                           Unit bare) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // a byte order mark
  if (const auto line = bad_line(text))
    return refuse("import", file + ":" + std::to_string(*line) + ": that is no text",
                  "save the table as CSV in UTF-8, without NUL");
  const char separator = text.substr(0, text.find('\n')).find(';') != std::string_view::npos ? ';' : ',';
  TENTH_TRY(const std::vector<CsvRow> rows, csv_rows(text, separator, file));
  if (rows.empty())
    return refuse("import", file + ":1: there is nothing in it",
                  "the first line names the columns: feature,index,level,axis,value,unit");
  if (rows.size() > kMostImportRows + 1)
    return refuse("import",
                  file + ":" + std::to_string(rows[kMostImportRows + 1].line) + ": more than " +
                      std::to_string(kMostImportRows) + " rows",
                  "bring the table in parts");
  return Table(file, spec, bare, separator).read(rows);
}

}  // namespace tenth
