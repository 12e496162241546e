#include "schema/import/csv_text.hpp"

namespace tenth {
namespace {

/// Walks over the text once, cell by cell.
class Reader {
 public:
  Reader(std::string_view text, char separator, const std::string& file)
      : text_(text), separator_(separator), file_(file) {}

  Result<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> all;
    while (!text_.empty()) {
      CsvRow row{line_, {}};
      TENTH_TRY(row.cells, cells());
      if (row.cells.size() > 1 || !row.cells.front().empty()) all.push_back(std::move(row));
    }
    return all;
  }

 private:
  Result<std::vector<std::string>> cells() {
    std::vector<std::string> cells;
    for (;;) {
      TENTH_TRY(std::string cell, text_.starts_with('"') ? quoted_cell() : plain_cell());
      cells.push_back(std::move(cell));
      if (text_.starts_with(separator_)) {
        text_.remove_prefix(1);
        continue;
      }
      if (end_line() || text_.empty()) return cells;
      return wrong("text follows the closing quote", "put the whole cell between quotes, and double those in it");
    }
  }

  Result<std::string> plain_cell() {
    const auto end = text_.find_first_of(std::string{separator_, '\r', '\n'});
    std::string cell(text_.substr(0, end));
    text_.remove_prefix(cell.size());
    if (cell.find('"') != std::string::npos)
      return wrong("a quote stands within a cell", "put the whole cell between quotes, and double those in it");
    return cell;
  }

  Result<std::string> quoted_cell() {
    const int began = line_;
    std::string cell;
    text_.remove_prefix(1);
    for (; !text_.empty(); text_.remove_prefix(1)) {
      if (text_.starts_with("\"\"")) {
        text_.remove_prefix(1);
      } else if (text_.starts_with('"')) {
        text_.remove_prefix(1);
        return cell;
      }
      if (text_.front() == '\n') ++line_;
      cell += text_.front();
    }
    line_ = began;
    return wrong("a quote is opened and never closed", "close it");
  }

  bool end_line() {
    if (text_.starts_with("\r\n")) text_.remove_prefix(1);
    if (!text_.starts_with('\n') && !text_.starts_with('\r')) return false;
    text_.remove_prefix(1);
    ++line_;
    return true;
  }

  tl::unexpected<Refusal> wrong(const std::string& what, const std::string& remedy) const {
    return refuse("import", file_ + ":" + std::to_string(line_) + ": " + what, remedy);
  }

  std::string_view text_;
  char separator_;
  const std::string& file_;
  int line_ = 1;
};

}  // namespace

Result<std::vector<CsvRow>> csv_rows(std::string_view text, char separator, const std::string& file) {
  return Reader(text, separator, file).rows();
}

}  // namespace tenth
