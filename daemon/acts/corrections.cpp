#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/doubting.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/runs.hpp"
#include "daemon/acts/settings.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

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

std::vector<std::int64_t> made_in(const Bench& bench, const std::vector<std::int64_t>& readings) {
  std::vector<std::int64_t> settings;
  for (const Setting& setting : bench.settings)
    if (!setting.voided && setting.used.reading && std::ranges::find(readings, *setting.used.reading) != readings.end())
      settings.push_back(setting.seq);
  return settings;
}

/// A gauge that was set in another one, at a reading that is void now, has a zero that nobody vouches for; and so has
/// one that was set in that gauge, at a reading that rests on this zero.
void void_settings_made_in(Draft& draft, std::vector<std::int64_t> readings) {
  for (auto settings = made_in(draft.bench(), readings); !settings.empty();
       settings = made_in(draft.bench(), readings)) {
    readings.clear();
    for (const std::int64_t seq : settings) {
      void_setting(draft, *find_setting(draft.bench(), seq), "the reading that its master was measured by is void");
      for (const Reading* reading : all_readings(draft.bench()))
        if (reading->setting == seq) readings.push_back(reading->seq);
    }
  }
}

/// Where a voided reading was taken becomes the place again, on the round if that passes there.
void return_to(Draft& draft, const Reading& reading) {
  if (!reading.place || !reading.engine) return;
  const Place place = *reading.place;
  const std::string engine = *reading.engine;
  const std::optional<std::string> own = own_or_common(draft.bench(), reading.gauge);
  if (!own && engine != draft.bench().engine) return;  // the common place is always one of the engine in use
  const Standing& standing = standing_of(draft.bench(), own);
  if (standing.round && standing.engine == engine) {
    const auto& places = standing.round->places;
    const auto found = std::find(places.begin(), places.end(), place);
    if (found != places.end()) return stand_in_round(draft, own, static_cast<std::size_t>(found - places.begin()));
  }
  choose_place(draft, own, engine, place);
}

}  // namespace

Decided undo(Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> name, Params(object).maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> gauge, maybe_gauge(draft.bench(), name));
  const Reading* last = nullptr;
  for (const Reading* reading : all_readings(draft.bench()))
    if (reading->state != State::voided && reading->source != Source::imported && (!gauge || reading->gauge == gauge) &&
        (last == nullptr || reading->seq > last->seq))
      last = reading;
  if (last == nullptr) return refuse("no_reading", "there is no reading to undo", "press the gauge at its place");
  const Reading undone = *last;
  append_by_engine(draft, "void", {undone.seq}, {{"reason", "undo"}, {"act", "undo"}});
  void_settings_made_in(draft, {undone.seq});
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
  void_settings_made_in(draft, seqs);
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
      if (!can_be_kept(doubt))
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

}  // namespace tenth
