#include "schema/export/html/markup.hpp"

#include <array>
#include <charconv>

#include "schema/json/escape.hpp"

namespace tenth::page {
namespace {

std::string cell(std::string_view tag, std::string_view css_class, std::string_view content) {
  const std::string attribute = css_class.empty() ? "" : " class=\"" + std::string(css_class) + "\"";
  return element(std::string(tag) + attribute, content);
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : printable(valid_utf8(text))) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string element(std::string_view opening, std::string_view inner) {
  const std::string_view tag = opening.substr(0, opening.find(' '));
  return "<" + std::string(opening) + ">" + std::string(inner) + "</" + std::string(tag) + ">";
}

std::string table(std::string_view css_class, const std::vector<Column>& columns, const std::vector<Cells>& rows) {
  if (rows.empty()) return "";
  std::string head, body;
  for (const Column& column : columns) head += cell("th", column.css_class, escaped(column.head));
  for (const Cells& row : rows) {
    if (row.size() == 1) {
      body += element("tr class=\"day\"", element("td colspan=\"" + std::to_string(columns.size()) + "\"", row[0]));
      continue;
    }
    std::string cells;
    for (std::size_t i = 0; i < row.size(); ++i)
      cells += cell("td", columns[i].css_class, row[i].empty() ? "–" : row[i]);
    body += element("tr", cells) + "\n";
  }
  return element("table class=\"" + std::string(css_class) + "\"",
                 element("thead", element("tr", head)) + "\n" + element("tbody", body)) +
         "\n";
}

std::string coordinate(double value) {
  std::array<char, 32> out{};
  const auto end = std::to_chars(out.data(), out.data() + out.size(), value, std::chars_format::fixed, 2).ptr;
  return {out.data(), end};
}

std::string figure(const std::optional<Length>& length, Unit unit) {
  return length ? fixed(*length, unit, usual_places(unit)) : std::string();
}

std::string sign(Verdict verdict) {
  std::string_view shape;
  switch (verdict) {
    case Verdict::in:
      shape = "<circle cx='8' cy='8' r='7'/><path d='M4.5 8.2 7 10.8 11.5 5.4'/>";
      break;
    case Verdict::doubtful:
      shape = "<path d='M8 1.2 15.2 14.4H.8z'/><path d='M8 6v4M8 11.6v1.2'/>";
      break;
    case Verdict::incomplete:
      shape = "<path stroke-dasharray='2.4 1.8' d='M1.5 1.5h13v13h-13z'/><path d='M4.4 8h.8M7.6 8h.8M10.8 8h.8'/>";
      break;
    case Verdict::out:
      shape = "<path class='solid' d='M5 .8h6L15.2 5v6L11 15.2H5L.8 11V5z'/><path class='cut' d='M5 5l6 6M11 5l-6 6'/>";
      break;
  }
  return element("svg class=\"sign\" viewBox=\"0 0 16 16\" aria-hidden=\"true\"", shape);
}

std::string mark(const std::optional<Verdict>& verdict) {
  if (!verdict) return element("span class=\"mark\"", "not judged");
  const std::string word(name(*verdict));
  return element("span class=\"mark " + word + "\"", sign(*verdict) + word);
}

}  // namespace tenth::page
