#include "schema/export/html/blocks.hpp"

#include "rules/names.hpp"
#include "schema/export/html/markup.hpp"
#include "schema/export/html/svg.hpp"
#include "schema/export/paper/qr.hpp"

namespace tenth::html_page {
namespace {

using namespace paper;

constexpr Names<Manner, 6> kManners{{"", "number", "picture", "note", "raw", "hand"}};
constexpr Names<Density, 3> kDensities{{"figures", "list", "form"}};
constexpr Names<Tone, 3> kTones{{"", "asked", "legend"}};

std::string tagged(std::string_view tag, std::string_view css_class, std::string_view inner) {
  return element(std::string(tag) + (css_class.empty() ? "" : " class=\"" + std::string(css_class) + "\""), inner);
}

std::string markup_of(const Piece& piece) {
  const std::string text = escaped(piece.text);
  if (piece.sign) return tagged("span", "mark", svg(drawing_of(*piece.sign)) + text);
  if (text.empty()) return "";
  if (piece.face == Face::bold) return element("b", text);
  return piece.face == Face::typed ? element("code", text) : text;
}

std::string markup_of(const Cell& cell, Manner manner) {
  if (cell.picture) return svg(*cell.picture);
  if (is_empty(cell.line)) return manner == Manner::hand ? "" : "–";
  return html_page::markup_of(cell.line);
}

std::string markup_of(const Cells& row, const std::vector<Column>& columns) {
  if (row.size() == 1)
    return tagged("tr", "day",
                  element("td colspan=\"" + std::to_string(columns.size()) + "\"", html_page::markup_of(row[0].line)));
  std::string cells;
  for (std::size_t i = 0; i < row.size(); ++i)
    cells += tagged("td", kManners.of(columns[i].manner), markup_of(row[i], columns[i].manner));
  return element("tr", cells);
}

struct Markup {
  std::string operator()(const Paragraph& p) const {
    return tagged("p", kTones.of(p.tone), html_page::markup_of(p.line));
  }

  std::string operator()(const Items& items) const {
    std::string out;
    for (const std::string& sentence : items.sentences) out += element("li", escaped(sentence));
    return element("ul", out);
  }

  std::string operator()(const Facts& facts) const {
    std::string out;
    for (const auto& [what, is] : facts.rows) out += element("dt", escaped(what)) + element("dd", escaped(is));
    return tagged("dl", "facts", out);
  }

  std::string operator()(const Whole& whole) const {
    std::string against;
    for (const auto& [mark, why] : whole.against)
      against += element("li", markup_of(mark) + element("span", escaped(why)));
    return tagged("section", "whole",
                  markup_of(whole.verdict) + element("p", escaped(whole.sentence)) +
                      (against.empty() ? "" : element("ul", against)));
  }

  std::string operator()(const Pictures& pictures) const {
    std::string out;
    for (const Picture& picture : pictures.pictures)
      out += element("figure", element("figcaption", html_page::markup_of(picture.caption)) + svg(picture.drawing));
    return element("div class=\"pictures\" style=\"--columns:" + std::to_string(pictures.in_a_row) + "\"", out);
  }

  std::string operator()(const Table& table) const {
    std::string head, body;
    for (const Column& column : table.columns) head += tagged("th", kManners.of(column.manner), escaped(column.head));
    for (const Cells& row : table.rows) body += markup_of(row, table.columns) + "\n";
    return tagged("table", kDensities.of(table.density),
                  element("thead", element("tr", head)) + "\n" + element("tbody", body)) +
           "\n";
  }

  std::string operator()(const HeadOfChain& head) const {
    return tagged("div", "chain", svg(qr_code(head.text)) + tagged("code", "head", escaped(head.text)));
  }

  std::string operator()(const Signatures& signatures) const {
    std::string out;
    for (const std::string& meaning : signatures.meanings)
      for (const std::string& line : {meaning, std::string("name"), std::string("date")})
        out += tagged("div", "line", escaped(line));
    return tagged("div", "signatures", out);
  }
};

}  // namespace

std::string markup_of(const Line& line) {
  std::string out;
  for (const Piece& piece : line) out += markup_of(piece);
  return out;
}

std::string markup_of(const Block& block) {
  return std::visit(Markup{}, block);
}

}  // namespace tenth::html_page
