#include "schema/export/exports.hpp"
#include "schema/export/html/decided.hpp"
#include "schema/export/html/headline.hpp"
#include "schema/export/html/markup.hpp"
#include "schema/export/html/results.hpp"
#include "schema/export/html/style.hpp"
#include "schema/export/html/witness.hpp"
#include "schema/export/html/words.hpp"

namespace tenth {
namespace {

using page::element;

std::string act(const char* title, const char* what, const std::string& content) {
  return element("section class=\"act\"", element("h2", std::string(title) + element("small", what)) + "\n" + content) +
         "\n";
}

/// Only what was worked on later is shown as found; the rest was left as it was found, and stands there.
std::string found(const Engine& engine) {
  const std::set<std::string> later = page::reworked(engine);
  if (later.empty()) return element("p", "No stage was begun after the first and no part changed: all was left as found. See “Left”.");
  const Engine before = page::as_found(engine);
  return element("p",
                 "The parts that were worked on afterwards, as they came. All others were left as found and stand "
                 "under “Left”.") +
         page::results_markup(page::results_of(before), &later);
}

std::string cautions() {
  std::string items;
  for (const std::string& sentence : page::cautions()) items += element("li", sentence);
  return element("ul", items);
}

std::string proof(const Bench& bench, const Head& head) {
  const std::string at = std::to_string(head.seq) + ":" + hex(head.hash);
  return element("p",
                 "Every act stands in an append-only ledger whose entries are chained by SHA-256. With this line on "
                 "paper nobody can change an entry before it unseen. Ledger " +
                     page::escaped(bench.id) + ", head:") +
         element("code class=\"head\"", at) +
         element("p", "To verify the JSON record that belongs to this page: " +
                          element("code", "tenth audit --record FILE") +
                          "; to hold the ledger against this line: " + element("code", "tenth audit --head " + at) +
                          ". A page can be forged like any paper: the "
                          "record and the ledger are the proof.");
}

}  // namespace

std::string html(const Bench& bench, const Engine& engine, const Head& head, const std::string& made_at) {
  const page::Results left = page::results_of(engine);
  const std::string title = page::escaped(engine.name + " – build record");
  return "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
         "<meta name=\"viewport\" content=\"width=device-width\">" +
         element("title", title) + element("style", page::kStyle) + "</head>\n<body>\n" +
         page::headline(engine, left.report, made_at) + "\n" + act("Found", "as the parts came", found(engine)) +
         act("Decided", "what people chose, and why (times in UTC)", page::decided_markup(bench, engine)) +
         act("Left", "the parts as they are now", page::results_markup(left)) +
         act("Readings", "every one, also those set aside", page::readings_markup(engine)) +
         act("Gauges", "what it was measured with", page::gauges_markup(bench, engine)) +
         act("Cautions", "", cautions()) + act("Proof", "how to check this page", proof(bench, head)) +
         element("footer", "Made by tenth " TENTH_VERSION ".") + "\n</body></html>\n";
}

}  // namespace tenth
