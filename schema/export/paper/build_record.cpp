#include "schema/export/paper/decided.hpp"
#include "schema/export/paper/figures.hpp"
#include "schema/export/paper/gauges.hpp"
#include "schema/export/paper/headline.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/export/paper/readings.hpp"
#include "schema/export/paper/results.hpp"
#include "schema/export/paper/rule.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

/// Only what was worked on later is shown as found; the rest was left as it was found, and stands there.
std::vector<Part> found(const Engine& engine) {
  const std::set<std::string> later = reworked(engine);
  if (later.empty())
    return {{"", {said("No stage was begun after the first and no part changed: all was left as found. See “Left”.")}}};
  std::vector<Part> parts = {
      {"",
       {said("The parts that were worked on afterwards, as they came. All others were left as found and stand under "
             "“Left”.")}}};
  const Engine before = as_found(engine);
  for (Part& part : results_parts(results_of(before), &later)) parts.push_back(std::move(part));
  return parts;
}

Part proof(const Bench& bench, const std::string& head) {
  return {"",
          {said("Every act stands in an append-only ledger whose entries are chained by SHA-256. With this line on "
                "paper nobody can change an entry before it unseen. Ledger " +
                bench.id + ", head:"),
           HeadOfChain{head},
           Paragraph{{{"To verify the JSON record that belongs to this paper: "},
                      {"tenth audit --record FILE", Face::typed},
                      {"; to hold the ledger against this line: "},
                      {"tenth audit --head " + head, Face::typed},
                      {". Paper can be forged: the record and the ledger are the proof."}}}}};
}

/// The verdict, and beside what is against it what it does not rest on firmly: gauges unchecked since, parts away.
Whole whole_of(const Engine& engine, const Report& report) {
  Whole whole = whole_verdict(*engine.spec, report);
  for (const auto& [gauge, seqs] : unconfirmed(engine, report.counts))
    whole.against.emplace_back(Piece{"unconfirmed", Face::bold},
                               std::to_string(seqs.size()) + (seqs.size() == 1 ? " reading of " : " readings of ") +
                                   gauge + ": no good check on its master has followed");
  for (const auto& [feature, sent] : engine.sent)
    if (!sent.received)
      whole.against.emplace_back(Piece{"away", Face::bold},
                                 heading(feature) + ": at " + sent.to + " since " + short_time(sent.time));
  return whole;
}

std::vector<std::string> meanings() {
  return {"Measured by", "Released by", "Received by"};
}

}  // namespace

Paper build_record(const Bench& bench, const Engine& engine, const Head& head) {
  const Results left = results_of(engine);
  Paper paper{"Build record", engine.name, engine.spec->title, printed(head), bench.time, {}, {}};
  paper.top = {facts_of(engine, bench.time), whole_of(engine, left.report)};
  paper.acts = {
      {"Found", "as the parts came", found(engine)},
      {"Decided", "what people chose, and why; what was set aside (times in UTC)", {decided_part(bench, engine)}},
      {"Left", "the parts as they are now", results_parts(left)},
      {"Rule", "how it was judged, and what the uncertainty is", {{"", {Items{decision_rule()}}}}},
      {"Figures", "to the last digit, in millimetres, as the JSON record has them", figures_parts(left.report)},
      {"Readings", "every one, also those set aside", {readings_part(engine)}},
      {"Gauges", "what it was measured with", gauges_parts(bench, engine.readings, engine.spec->unit)},
      {"Cautions", "", {{"", {Items{cautions()}}}}},
      {"Signed", "who vouches for it", {{"", {Signatures{meanings()}}}}},
      {"Proof", "how to check this paper", {proof(bench, paper.head)}}};
  return paper;
}

}  // namespace tenth::paper
