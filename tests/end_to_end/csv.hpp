// A reader of RFC 4180, strict: CRLF, quotes doubled.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace acceptance {

using Row = std::vector<std::string>;

inline std::vector<Row> read_csv(const std::string& text) {
  std::vector<Row> rows;
  Row row;
  std::string cell;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    if (quoted && c == '"' && next == '"') {
      cell += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (quoted) {
      cell += c;
    } else if (c == ',') {
      row.push_back(std::move(cell));
      cell.clear();
    } else if (c == '\r' && next == '\n') {
      row.push_back(std::move(cell));
      cell.clear();
      rows.push_back(std::move(row));
      row.clear();
      ++i;
    } else if (c == '\r' || c == '\n') {
      throw std::runtime_error("a bare line end outside quotes");
    } else {
      cell += c;
    }
  }
  if (quoted || !cell.empty() || !row.empty()) throw std::runtime_error("the last row has no end");
  return rows;
}

// Rows after the header, each with its cells by column name.
inline std::vector<std::map<std::string, std::string>> by_column(const std::vector<Row>& rows) {
  std::vector<std::map<std::string, std::string>> named;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() != rows[0].size()) throw std::runtime_error("a row of another width");
    auto& one = named.emplace_back();
    for (std::size_t k = 0; k < rows[0].size(); ++k) one[rows[0][k]] = rows[i][k];
  }
  return named;
}

}  // namespace acceptance
