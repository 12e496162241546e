#include "rules/engine.hpp"

#include <algorithm>
#include <ranges>
#include <set>
#include <span>

#include "rules/uncertainty.hpp"

namespace tenth {
namespace {

using Readings = std::vector<const Reading*>;
struct InOrder {
  bool operator()(const Place* a, const Place* b) const { return *a < *b; }
};

const Stage kAsFound;

/// The stages of a feature, newest first.
std::vector<const Stage*> newest_first(const Engine& engine, const std::string& feature) {
  std::vector<const Stage*> result;
  if (const auto found = engine.stages.find(feature); found != engine.stages.end())
    for (const Stage& stage : found->second | std::views::reverse) result.push_back(&stage);
  if (result.empty() || result.back()->entry != kAsFound.entry) result.push_back(&kAsFound);
  return result;
}

bool may_count(const Engine& engine, const Reading& reading) {
  return reading.state == State::kept && reading.place && reading.size && of_present_part(engine, reading);
}

Counting made_of(std::span<const Reading* const> readings, const Stage& stage) {
  Counting result;
  std::vector<Length> sizes, sizes_20c;
  for (const Reading* reading : readings) {
    const auto repeatability = reading->repeatability ? reading->repeatability : reading->uncertainty;
    const bool first = sizes.empty();
    result.uncertainty = first ? reading->uncertainty : larger(result.uncertainty, reading->uncertainty);
    result.repeatability = first ? repeatability : larger(result.repeatability, repeatability);
    sizes.push_back(*reading->size);
    if (reading->size_20c) sizes_20c.push_back(*reading->size_20c);
    if (reading->temperatures) result.within = std::max(result.within, reading->temperatures->within);
    result.seqs.push_back(reading->seq);
  }
  result.size = result.as_read = mean(sizes);
  if (sizes_20c.size() == sizes.size()) result.size_20c = mean(sizes_20c);
  result.stage = stage.name;
  return result;
}

/// Falls back through the stages for as long as each carries the one before.
std::optional<Counting> resolve(const Engine& engine, const Feature& feature, const Readings& kept) {
  const auto presses = static_cast<std::size_t>(feature.presses);
  bool carried = false;
  for (const Stage* stage : newest_first(engine, feature.name)) {
    Readings here;
    std::ranges::copy_if(kept, std::back_inserter(here),
                         [stage](const Reading* reading) { return reading->stage_entry == stage->entry; });
    if (here.size() >= presses) {
      Counting result = made_of(std::span(here).last(presses), *stage);
      result.carried = carried;
      return result;
    }
    if (!stage->carry) break;
    carried = true;
  }
  return std::nullopt;
}

/// One index is all at 20 °C or all as read: a form of the two mixed would be an error of temperature.
void correct_to_20c(CountingMap& counts) {
  const auto same_index = [](const auto& a, const auto& b) {
    return a.first.feature == b.first.feature && a.first.index == b.first.index;
  };
  for (auto from = counts.begin(); from != counts.end();) {
    const auto to = std::find_if_not(from, counts.end(), [&](const auto& other) { return same_index(*from, other); });
    if (std::all_of(from, to, [](const auto& item) { return item.second.size_20c.has_value(); }))
      for (auto item = from; item != to; ++item) {
        item->second.size = *item->second.size_20c;
        item->second.corrected = true;
      }
    from = to;
  }
}

}  // namespace

const Stage& stage_of(const Engine& engine, const std::string& feature) {
  return *newest_first(engine, feature).front();
}

bool is_away(const Engine& engine, const std::string& feature) {
  const auto found = engine.sent.find(feature);
  return found != engine.sent.end() && !found->second.received;
}

bool is_set_up(const Engine& engine, const Feature& feature) {
  if (feature.setup.empty()) return true;
  const auto found = engine.set_up.find(feature.name);
  return found != engine.set_up.end() && found->second.contains(stage_of(engine, feature.name).entry);
}

bool of_present_part(const Engine& engine, const Reading& reading) {
  const auto found = engine.replaced.find({reading.place->feature, reading.place->index});
  return found == engine.replaced.end() || reading.seq > found->second.back();
}

CountingMap counting(const Engine& engine) {
  std::map<const Place*, Readings, InOrder> kept;
  for (const Reading& reading : engine.readings)
    if (may_count(engine, reading)) kept[&*reading.place].push_back(&reading);
  CountingMap result;
  for (const auto& [place, readings] : kept)
    if (const Feature* feature = engine.spec->find(place->feature))
      if (auto counts = resolve(engine, *feature, readings))
        result.emplace_hint(result.end(), *place, std::move(*counts));
  correct_to_20c(result);
  return result;
}

std::map<std::string, std::vector<std::int64_t>> unconfirmed(const Engine& engine, const CountingMap& counts) {
  std::set<std::int64_t> counted;
  for (const auto& [place, here] : counts) counted.insert(here.seqs.begin(), here.seqs.end());
  std::map<std::string, std::vector<std::int64_t>> result;
  for (const Reading& reading : engine.readings)
    if (reading.gauge && reading.setting && !reading.closed && counted.contains(reading.seq))
      result[*reading.gauge].push_back(reading.seq);
  return result;
}

std::vector<const Reading*> kept_at(const Engine& engine, const Place& place) {
  const std::int64_t present = stage_of(engine, place.feature).entry;
  Readings result;
  for (const Reading& reading : engine.readings)
    if (may_count(engine, reading) && *reading.place == place && reading.stage_entry == present)
      result.push_back(&reading);
  return result;
}

}  // namespace tenth
