#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/doubting.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/settings.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

/// SEQ[..SEQ] and the reason for it.
struct Run {
  std::int64_t first = 0, last = 0;
  std::string reason;
};

Result<Run> run_of(const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> first, params.maybe_number("first"));
  TENTH_TRY(const std::optional<std::int64_t> last, params.maybe_number("last"));
  if (!first || *first < 1 || (last && *last < *first))
    return wrong_words("seq", "that is no run of entries", "give SEQ or SEQ..SEQ");
  TENTH_TRY(const std::string reason, reason_of(params));
  return Run{*first, last.value_or(*first), reason};
}

/// The readings of a run, in order of seq; other entries between them do not count.
Result<std::vector<const Reading*>> readings_of(const Bench& bench, const Run& run) {
  std::vector<const Reading*> readings;
  if (run.last > bench.seq)
    return refuse("no_reading",
                  "the ledger ends at entry " + std::to_string(bench.seq) + ", before " + std::to_string(run.last),
                  "`tenth readings --all` shows the numbers of readings");
  for (auto it = bench.reading_index.lower_bound(run.first); it != bench.reading_index.end() && it->first <= run.last;
       ++it)
    readings.push_back(find_reading(bench, it->first));
  if (readings.empty())
    return refuse("no_reading", "there is no reading with the number " + std::to_string(run.first),
                  "`tenth readings --all` shows their numbers");
  return readings;
}

std::vector<std::int64_t> seqs_of(const std::vector<const Reading*>& readings) {
  std::vector<std::int64_t> seqs;
  for (const Reading* reading : readings) seqs.push_back(reading->seq);
  return seqs;
}

Answerer answer_seqs(const std::vector<std::int64_t>& seqs, const std::optional<std::string>& gauge) {
  return [seqs, gauge](const View& view) { return Json{{"seqs", seqs}, {"place", place_event(view.bench, gauge)}}; };
}

Decided void_one_setting(Draft& draft, const Setting& setting, const std::string& reason) {
  if (setting.voided)
    return refuse("void", "setting " + std::to_string(setting.seq) + " is void already", "nothing is left to do");
  const std::string gauge = setting.gauge;
  const std::int64_t seq = setting.seq;
  void_setting(draft, setting, reason);
  return answer_seqs({seq}, own_or_common(draft.bench(), gauge));
}

/// Where a voided reading was taken becomes the place again, on the round if that passes there.
void return_to(Draft& draft, const Reading& reading) {
  if (!reading.place || !reading.engine) return;
  const Place place = *reading.place;
  const std::string engine = *reading.engine;
  const std::optional<std::string> own = own_or_common(draft.bench(), reading.gauge);
  const Standing& standing = standing_of(draft.bench(), own);
  if (standing.round && standing.engine == engine) {
    const auto& places = standing.round->places;
    const auto found = std::find(places.begin(), places.end(), place);
    if (found != places.end()) return stand_in_round(draft, own, static_cast<std::size_t>(found - places.begin()));
  }
  choose_place(draft, own, engine, place);
}

bool cannot_keep(Doubt doubt) {
  return doubt == Doubt::no_place || doubt == Doubt::wrong_kind || doubt == Doubt::no_setting || doubt == Doubt::unit;
}

}  // namespace

Decided undo(Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> name, Params(object).maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> gauge, maybe_gauge(draft.bench(), name));
  const Reading* last = nullptr;
  for (const Reading* reading : all_readings(draft.bench()))
    if (reading->state != State::voided && (!gauge || reading->gauge == gauge) &&
        (last == nullptr || reading->seq > last->seq))
      last = reading;
  if (last == nullptr) return refuse("no_reading", "there is no reading to undo", "press the gauge at its place");
  const Reading undone = *last;
  append_by_engine(draft, "void", {undone.seq}, {{"reason", "undo"}, {"act", "undo"}});
  return_to(draft, undone);
  return answer_seqs({undone.seq}, own_or_common(draft.bench(), undone.gauge));
}

Decided void_readings(Draft& draft, const Json& object) {
  TENTH_TRY(const Run run, run_of(object));
  if (const Setting* const setting = find_setting(draft.bench(), run.first);
      setting != nullptr && run.first == run.last)
    return void_one_setting(draft, *setting, run.reason);
  TENTH_TRY(std::vector<const Reading*> readings, readings_of(draft.bench(), run));
  std::erase_if(readings, [](const Reading* reading) { return reading->state == State::voided; });
  if (readings.empty())
    return refuse("void", "that is void already", "`tenth keep SEQ --reason TEXT` brings a void reading back");
  const auto seqs = seqs_of(readings);
  append_by_engine(draft, "void", seqs, {{"reason", run.reason}, {"act", "void"}});
  return answer_seqs(seqs, own_or_common(draft.bench(), find_reading(draft.bench(), seqs.back())->gauge));
}

Decided keep_readings(Draft& draft, const Json& object) {
  TENTH_TRY(const Run run, run_of(object));
  TENTH_TRY(std::vector<const Reading*> readings, readings_of(draft.bench(), run));
  std::erase_if(readings, [](const Reading* reading) { return reading->state == State::kept; });
  if (readings.empty()) return refuse("kept", "that is kept already", "nothing is left to do");
  for (const Reading* reading : readings) {
    if (!reading->claimed_by.empty())
      return refuse("claimed",
                    "reading " + std::to_string(reading->seq) + " is a claim of " + reading->claimed_by +
                        ": it is shown, never judged",
                    "measure the place yourself");
    for (const Doubt doubt : reading->doubts)
      if (cannot_keep(doubt))
        return refuse("cannot_keep",
                      "reading " + std::to_string(reading->seq) + " cannot be kept: " + std::string(name(doubt)),
                      "move it to its place, or set the gauge and measure again");
  }
  const auto seqs = seqs_of(readings);
  append_by_engine(draft, "keep", seqs, {{"reason", run.reason}});
  for (const std::int64_t seq : seqs) {
    const Reading kept = *find_reading(draft.bench(), seq);
    advance(draft, kept.gauge, *kept.engine, *kept.place);
  }
  return answer_seqs(seqs, own_or_common(draft.bench(), find_reading(draft.bench(), seqs.back())->gauge));
}

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
  if (sent == engine.sent.end()) return false;
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
  move["stage_entry"] = stage.entry != 0 ? Json(stage.entry) : Json(nullptr);
  move["label"] = engine.spec->find(place.feature)->labels.at(static_cast<std::size_t>(place.index - 1));
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
