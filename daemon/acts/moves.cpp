#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/runs.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/params.hpp"
#include "rules/figure.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

/// The order that a run is laid along: the round's where it passes the first place, else the spec's own.
Result<std::vector<Place>> order_from(const Bench& bench, const Reading& first, const Engine& engine,
                                      const Place& place) {
  const Standing& standing = standing_of(bench, first.gauge);
  std::vector<Place> order;
  if (standing.round && standing.engine == engine.name) order = standing.round->places;
  if (std::find(order.begin(), order.end(), place) == order.end()) {
    TENTH_TRY(order, round_order(*engine.spec, RoundAsk{{}, RoundBy::feature, "", false}));
  }
  order.erase(order.begin(), std::find(order.begin(), order.end(), place));
  return order;
}

/// The parts of this feature were at another shop when the reading came. Of the last time the ledger knows from when to
/// when; of an earlier one the reading itself says so.
bool was_away(const Engine& engine, const Reading& reading, const std::string& feature) {
  const auto sent = engine.sent.find(feature);
  if (sent == engine.sent.end() || reading.source == Source::imported) return false;
  const Sent& last = sent->second;
  if (reading.seq > last.seq) return !last.received || reading.seq < *last.received;
  const bool held = std::find(reading.doubts.begin(), reading.doubts.end(), Doubt::away) != reading.doubts.end();
  return held && reading.place && reading.place->feature == feature;
}

/// A reading's doubts at another place: those of its frame stay, those of the place are judged anew.
std::vector<Doubt> doubts_moved(const Bench& bench, const Engine& engine, const Reading& reading, const Place& place) {
  const auto gauge = reading.gauge ? bench.gauges.find(*reading.gauge) : bench.gauges.end();
  std::vector<Doubt> doubts =
      doubts_at(engine, place, gauge == bench.gauges.end() ? Measures::any : gauge->second.measures, reading.size);
  std::erase(doubts, Doubt::away);  // what counts is where the part was then, not where it is now
  if (was_away(engine, reading, place.feature)) doubts.push_back(Doubt::away);
  for (const Doubt doubt : reading.doubts)
    if (doubt == Doubt::no_setting || doubt == Doubt::setting_old || doubt == Doubt::unit ||
        (doubt >= Doubt::too_soon && doubt != Doubt::away))
      doubts.push_back(doubt);
  return doubts;
}

Json move_json(const Bench& bench, const Engine& engine, const Reading& reading, const Place& place) {
  const bool claimed = reading.state == State::claimed;
  const std::vector<Doubt> doubts = claimed ? std::vector<Doubt>() : doubts_moved(bench, engine, reading, place);
  const Stage& stage = stage_of(engine, place.feature);
  Json move = {{"seq", reading.seq}, {"stage", stage.name}, {"doubts", Json::array()}};
  put_place(move, place);
  move["stage_entry"] = number_or_null(stage.entry);
  move["label"] = label_of(*engine.spec->find(place.feature), place.index);
  move["state"] = name(claimed ? State::claimed : doubts.empty() ? State::kept : State::suspect);
  for (const Doubt doubt : doubts) move["doubts"].push_back(name(doubt));
  return move;
}

Result<std::vector<const Reading*>> movable(const Bench& bench, const Run& run, const std::string& engine) {
  TENTH_TRY(std::vector<const Reading*> readings, readings_of(bench, run));
  std::erase_if(readings, [](const Reading* reading) { return reading->state == State::voided; });
  if (readings.empty())
    return refuse("void", "a void reading cannot be moved", "keep it first: `tenth keep SEQ --reason TEXT`");
  for (const Reading* reading : readings)
    if (reading->engine.value_or(engine) != engine)
      return refuse("engines", "the run holds readings of engine `" + *reading->engine + "`",
                    "move each engine's readings by themselves");
  return readings;
}

}  // namespace

Decided move_readings(Draft& draft, const Json& object) {
  TENTH_TRY(const Run run, run_of(object));
  TENTH_TRY(const std::vector<std::string> words, Params(object).texts("words"));
  TENTH_TRY(const std::vector<const Reading*> all, readings_of(draft.bench(), run));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), all.front()->engine));
  TENTH_TRY(const std::vector<const Reading*> readings, movable(draft.bench(), run, engine->name));
  TENTH_TRY(const Place place, find_place(*engine->spec, words));
  TENTH_TRY(const std::vector<Place> order, order_from(draft.bench(), *readings.front(), *engine, place));
  const auto presses = static_cast<std::size_t>(engine->spec->find(place.feature)->presses);
  if ((readings.size() - 1) / presses >= order.size())
    return refuse("places",
                  "there are " + std::to_string(order.size()) + " places from there on for " +
                      std::to_string(readings.size()) + " readings",
                  "move fewer, or begin at an earlier place");
  Json moves = Json::array(), seqs = Json::array(), places = Json::array();
  for (std::size_t i = 0; i < readings.size(); ++i) {
    moves.push_back(move_json(draft.bench(), *engine, *readings[i], order[i / presses]));
    seqs.push_back(readings[i]->seq);
    places.push_back(slashed(order[i / presses], *engine->spec));
  }
  draft.append("move",
               {{"engine", engine->name}, {"spec", engine->spec_seq}, {"reason", run.reason}, {"moves", moves}});
  for (const Json& seq : seqs) {
    const Reading moved = *find_reading(draft.bench(), seq.get<std::int64_t>());
    if (moved.state == State::kept) advance(draft, moved.gauge, *moved.engine, *moved.place);
  }
  const Json answer = {{"seqs", seqs}, {"places", places}};
  return [answer](const View&) { return answer; };
}

}  // namespace tenth
