#include <algorithm>
#include <stdexcept>
#include <utility>

#include "rules/figure.hpp"
#include "rules/place.hpp"
#include "schema/ledger/fold_parts.hpp"
#include "schema/spec/spec_file.hpp"

namespace tenth {
namespace {

/// A place that a later version of the spec lacks has no readings: whoever stands there stands nowhere, and a round
/// leaves it out.
void leave_out(Standing& standing, const Spec& spec) {
  const auto gone = [&](const Place& place) { return !has_place(spec, place); };
  if (standing.place && gone(*standing.place)) standing.place.reset();
  if (!standing.round) return;
  auto& places = standing.round->places;
  const auto passed = places.begin() + static_cast<std::ptrdiff_t>(std::min(standing.at, places.size()));
  standing.at -= static_cast<std::size_t>(std::count_if(places.begin(), passed, gone));
  std::erase_if(places, gone);
}

/// Pairings hold for as long as the spec pairs the parts of that fit as before: another pairing in it is the later
/// word. What sat where there is no position any more is forgotten.
void forget(Engine& engine, const Spec& before) {
  const Spec& now = *engine.spec;
  std::erase_if(engine.mates, [&](const auto& mates) {
    const auto then = std::ranges::find(before.fits, mates.first, &Fit::name);
    const auto fit = std::ranges::find(now.fits, mates.first, &Fit::name);
    return fit == now.fits.end() || then == before.fits.end() || fit->inside != then->inside ||
           fit->outside != then->outside || fit->couples != then->couples;
  });
  const auto gone = [&](const auto& item) {
    const Feature* const feature = now.find(item.first.first);
    return feature == nullptr || item.first.second > feature->count();
  };
  const auto nameless = [&](const auto& item) { return now.find(item.first) == nullptr; };
  std::erase_if(engine.sent, nameless);
  std::erase_if(engine.set_up, nameless);
  std::erase_if(engine.installed, gone);
  std::erase_if(engine.replaced, gone);
}

/// A later version may call the positions by other labels, or name other materials: readings stay at their positions,
/// take the new names, and are corrected by the new materials.
void follow_spec(Bench& bench, Engine& engine) {
  for (Reading& reading : engine.readings) {
    if (!reading.place || !has_place(*engine.spec, *reading.place)) continue;
    reading.label = label_of(*engine.spec->find(reading.place->feature), reading.place->index);
    if (const auto& from = reading.moved_from; from && has_place(*engine.spec, *from))
      reading.moved_from_label = label_of(*engine.spec->find(from->feature), from->index);
    reading.size_20c = size_20c_of(reading, *engine.spec);
  }
  if (bench.common.engine == engine.name) leave_out(bench.common, *engine.spec);
  for (auto& [gauge, standing] : bench.own)
    if (standing.engine == engine.name) leave_out(standing, *engine.spec);
}

}  // namespace

/// A spec comes before the engine that is judged by it; its text is parsed again, so spec and results cannot part.
void apply_spec(Bench& bench, const Entry& entry) {
  auto spec = parse_spec(entry.body.at("text").get<std::string>(), entry.body.at("file").get<std::string>());
  if (!spec) throw std::runtime_error("a stored spec cannot be read: " + spec.error().message);
  Engine& engine = bench.engines[entry.body.at("engine").get<std::string>()];
  engine.name = entry.body.at("engine").get<std::string>();
  const auto before = std::exchange(engine.spec, std::make_shared<const Spec>(std::move(*spec)));
  engine.spec_seq = entry.seq;
  if (before) forget(engine, *before);
  follow_spec(bench, engine);
  if (seq_at(entry.body, "previous")) note_choice(bench, entry, "a new version of the spec: " + engine.spec->title);
}

/// The builder's act of adding; the spec entry before it has made the engine.
void apply_engine(Bench& bench, const Entry& entry) {
  if (!bench.engines.contains(entry.body.at("engine").get<std::string>()))
    throw std::runtime_error("an engine without a spec");
}

void apply_engine_use(Bench& bench, const Entry& entry) {
  bench.engine = entry.body.at("engine").get<std::string>();
  if (bench.warmths.engine != *bench.engine) bench.warmths = {};
  bench.common = {};
  bench.common.seq = entry.seq;
  bench.common.engine = bench.engine;
}

void apply_stage(Bench& bench, const Entry& entry) {
  Engine& engine = engine_of(bench, entry);
  const Stage stage{entry.body.at("name").get<std::string>(), entry.seq, entry.body.at("carry").get<bool>(),
                    entry.body.at("time").get<std::string>()};
  for (const Json& item : entry.body.at("features")) {
    const auto feature = item.get<std::string>();
    auto& stages = engine.stages[feature];
    if (stages.empty()) stages.push_back({});
    stages.push_back(stage);
    if (!stage.carry) std::erase_if(engine.answers, [&](const auto& answer) { return answer.first.first == feature; });
  }
}

/// Told for some features, or for all: then what was told of single ones ends.
void apply_temperature(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Temperatures told;
  told.entry = entry.seq;
  told.part = parse_temperature(body.at("part").get<std::string>()).value();
  if (const auto gauge = text_at(body, "gauge_at")) told.gauge = parse_temperature(*gauge).value();
  if (const auto within = text_at(body, "within")) told.within = parse_within(*within).value();
  bench.temperatures[entry.seq] = {told, body.at("time").get<std::string>()};
  const Json& features = body.at("features");
  const auto engine = body.at("engine").get<std::string>();
  if (features.empty() || bench.warmths.engine != engine) bench.warmths = {engine, {}};
  if (features.empty()) bench.warmths.by_feature[""] = entry.seq;
  for (const Json& feature : features) bench.warmths.by_feature[feature.get<std::string>()] = entry.seq;
}

}  // namespace tenth
