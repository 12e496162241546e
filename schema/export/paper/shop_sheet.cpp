#include <algorithm>
#include <set>

#include "rules/joined.hpp"
#include "schema/export/paper/gauges.hpp"
#include "schema/export/paper/headline.hpp"
#include "schema/export/paper/papers.hpp"
#include "schema/export/paper/shop_parts.hpp"
#include "schema/export/paper/words.hpp"

namespace tenth::paper {
namespace {

/// What must not be touched.
Items leave_alone(const Spec& spec, const Features& features) {
  std::vector<std::string> others;
  for (const Feature& feature : spec.features)
    if (feature.kind != Kind::check && !is_among(features, feature.name)) others.push_back(spaced(feature.name));
  Items items{{"Work on nothing but what is asked for above, and take off no more."}};
  if (!others.empty()) items.sentences.push_back("To keep their sizes: " + joined(others) + ".");
  items.sentences.emplace_back("Never brush measured surfaces with wire: it changes their sizes.");
  return items;
}

Items shop_cautions(const Engine& engine, const Features& features) {
  Items items{
      {"Whoever does the work and the maker of the part decide what it can stand: where this sheet and they "
       "differ, stop and ask.",
       "Material taken off a hardened surface may leave none of the hardened layer: find out how it was "
       "hardened, and whether it is to be renewed afterwards.",
       "Radii at the ends of journals, and the edges of oil holes, are finished as the part's maker asks.",
       "Measure parts and gauges when both are cold, near 20 °C, clean and dry."}};
  for (const Remedy& remedy : advice_on(engine, features))
    for (const std::string& caution : remedy.cautions)
      if (const std::string sentence = heading(caution) + ".";
          std::ranges::find(items.sentences, sentence) == items.sentences.end())
        items.sentences.push_back(sentence);
  return items;
}

std::vector<Reading> readings_that_count(const Engine& engine, const CountingMap& counts, const Features& features) {
  std::set<std::int64_t> seqs;
  for (const auto& [place, counting] : counts)
    if (is_among(features, place.feature)) seqs.insert(counting.seqs.begin(), counting.seqs.end());
  std::vector<Reading> readings = engine.readings;
  std::erase_if(readings, [&](const Reading& reading) { return !seqs.contains(reading.seq); });
  return readings;
}

}  // namespace

Paper shop_sheet(const Bench& bench, const Engine& engine, const Features& features, const Head& head) {
  const Results results = results_of(engine);
  Paper paper{"Order to the machine shop", engine.name, engine.spec->title, printed(head), bench.time, {}, {}};
  paper.top = {facts_of(*engine.spec, bench.time)};
  Act parts{"Sizes", "asked for, measured, and after the work", {}};
  for (const Feature* feature : features) parts.parts.push_back(sizes_part(results, *feature));
  paper.acts = {
      {"Work", "what is to be done", {work_part(bench, engine, features)}},
      std::move(parts),
      {"Leave alone", "", {{"", {leave_alone(*engine.spec, features)}}}},
      {"Gauges", "what it was measured with",
       gauges_parts(bench, readings_that_count(engine, results.counts, features), engine.spec->unit)},
      {"Cautions", "", {{"", {shop_cautions(engine, features)}}}},
      {"Signed", "", {{"", {Signatures{{"Handed over by", "Taken on by", "Work done by", "Back, measured by"}}}}}},
      {"Proof", "", {{"", {said("The measurements stand in a ledger whose head was:"), HeadOfChain{paper.head}}}}}};
  return paper;
}

}  // namespace tenth::paper
