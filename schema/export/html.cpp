#include <variant>

#include "schema/export/exports.hpp"
#include "schema/export/html/blocks.hpp"
#include "schema/export/html/markup.hpp"
#include "schema/export/html/style.hpp"
#include "schema/export/html/svg.hpp"

namespace tenth {
namespace {

using html_page::element;
using html_page::escaped;

/// A title stays on one page with what stands before the first table.
std::string part_markup(const paper::Part& part) {
  std::string together = part.title.empty() ? "" : element("h3", escaped(part.title)), rest;
  for (const paper::Block& block : part.blocks) {
    const bool apart = !rest.empty() || std::holds_alternative<paper::Table>(block);
    (apart ? rest : together) += html_page::markup_of(block);
  }
  return element("section class=\"part\"", element("div class=\"together\"", together) + rest) + "\n";
}

std::string act_markup(const paper::Act& act) {
  std::string parts;
  for (const paper::Part& part : act.parts) parts += part_markup(part);
  return element("section class=\"act\"",
                 element("h2", escaped(act.title) + element("small", escaped(act.what))) + "\n" + parts);
}

/// Every printed page bears the head of the chain, whose page it is, and which of how many.
std::string margins(const paper::Paper& paper) {
  using html_page::styled;
  return "@page { @bottom-left { content: \"" + styled(paper.title) + "\"; } @bottom-center { content: \"" +
         styled(paper.head) + "\"; } @bottom-right { content: counter(page) \" of \" counter(pages); } }\n";
}

}  // namespace

std::string html(const paper::Paper& paper) {
  std::string top, acts;
  for (const paper::Block& block : paper.top) top += html_page::markup_of(block) + "\n";
  for (const paper::Act& act : paper.acts) acts += act_markup(act) + "\n";
  const std::string style = std::string(html_page::kStyle) + html_page::ink_styles() + margins(paper);
  return "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
         "<meta name=\"viewport\" content=\"width=device-width\">" +
         element("title", escaped(paper.title + " – " + paper.kind)) + element("style", style) + "</head>\n<body>\n" +
         element("header", element("p class=\"kind\"", escaped(paper.kind)) + element("h1", escaped(paper.title)) +
                               element("p class=\"title\"", escaped(paper.subtitle))) +
         "\n" + top + acts + element("footer", "Made by tenth " TENTH_VERSION ".") + "\n</body></html>\n";
}

}  // namespace tenth
