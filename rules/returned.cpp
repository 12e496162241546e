#include "rules/returned.hpp"

#include <algorithm>

#include "rules/figure.hpp"
#include "rules/place.hpp"

namespace tenth {
namespace {

/// What counts at these places and was measured since the entry `received`.
CountingMap since(const CountingMap& counts, std::span<const Place> places, std::int64_t received) {
  CountingMap later;
  for (const Place& place : places)
    if (const auto found = counts.find(place); found != counts.end() && std::ranges::min(found->second.seqs) > received)
      later.insert(*found);
  return later;
}

Returned held(const CountingMap& counts, const Feature& feature, const Sent& sent, int index) {
  const std::vector<Place> places = places_of(feature, index);
  const Sample sizes = sample(since(counts, places, *sent.received), places);
  Returned result{feature.name,       sent.to,          index,           label_of(feature, index),
                  *sent.size,         sizes.smallest(), sizes.largest(), sizes.uncertainty,
                  Verdict::incomplete};
  const AskedSize& asked = *sent.size;
  Findings findings;
  hold(findings, "size", {sizes.smallest(), sizes.complete(), false}, asked.size - asked.within, Side::lower,
       sizes.uncertainty);
  hold(findings, "size", {sizes.largest(), sizes.complete(), false}, asked.size + asked.within, Side::upper,
       sizes.uncertainty);
  result.verdict = sizes.complete() ? *findings.verdict : *worst(findings.verdict, Verdict::incomplete);
  return result;
}

}  // namespace

std::vector<Returned> returned(const Engine& engine, const CountingMap& counts) {
  std::vector<Returned> all;
  for (const Feature& feature : engine.spec->features) {
    const auto sent = engine.sent.find(feature.name);
    if (sent == engine.sent.end() || !sent->second.received || !sent->second.size) continue;
    for (int index = 1; index <= feature.count(); ++index) all.push_back(held(counts, feature, sent->second, index));
  }
  return all;
}

}  // namespace tenth
