#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/settings.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/events.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "rules/figure.hpp"
#include "rules/judge.hpp"
#include "schema/json/escape.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

bool is_check(const Bench& bench, const Standing& standing) {
  return standing.engine && standing.place &&
         bench.engines.at(*standing.engine).spec->find(standing.place->feature)->kind == Kind::check;
}

Json answer_of(const Engine& engine, const Place& place, const std::string& word,
               const std::optional<std::string>& note) {
  return {{"feature", place.feature},
          {"index", place.index},
          {"answer", word},
          {"note", or_null(note)},
          {"label", label_of(*engine.spec->find(place.feature), place.index)}};
}

void append_answer(Draft& draft, const Engine& engine, const Place& place, Json answer, std::int64_t standing) {
  answer.update({{"engine", engine.name},
                 {"spec", engine.spec_seq},
                 {"place", standing},
                 {"stage", stage_of(engine, place.feature).name}});
  draft.append("answer", std::move(answer));
}

/// The places of the same check that nobody has answered yet.
std::vector<Place> unanswered(const Engine& engine, const Place& place) {
  std::vector<Place> places;
  for (int index = 1; index <= engine.spec->find(place.feature)->count(); ++index)
    if (index != place.index && !engine.answers.contains({place.feature, index}))
      places.push_back({place.feature, index, "", ""});
  return places;
}

/// With `rest` the same answer goes for every index of this check that has none yet.
Decided enter_answer(Draft& draft, const std::string& word, const std::optional<std::string>& note,
                     const Standing standing, const std::optional<std::string>& gauge, bool rest) {
  const auto said = answer_from(word);
  if (!said) return refuse("answer", "`" + word + "` is no answer to a check", "enter yes, no, later or n/a");
  if (said == Answer::not_applicable && blank(note.value_or("")))
    return refuse("note", "that a check does not apply wants a reason", "add --note TEXT");
  if (standing.engine == std::nullopt || !is_check(draft.bench(), standing))
    return refuse("answer", "the place is no check", "choose one: `tenth at FEATURE`");
  const Engine& engine = draft.bench().engines.at(*standing.engine);
  const Place place = *standing.place;
  const Json answer = answer_of(engine, place, word, note);
  const auto others = rest ? unanswered(engine, place) : std::vector<Place>();
  append_answer(draft, engine, place, answer, standing.seq);
  for (const Place& other : others)
    append_answer(draft, engine, other, answer_of(engine, other, word, note), standing.seq);
  advance(draft, gauge, *standing.engine, place);
  return [answer, gauge, rest = others.size()](const View& view) {
    return Json{
        {"answer", answer}, {"rest", rest}, {"place", place_event(view.bench, own_or_common(view.bench, gauge))}};
  };
}

std::optional<Unit> spec_unit(const Bench& bench, const Standing& standing) {
  const auto engine = standing.engine ? standing.engine : bench.engine;
  if (!engine) return std::nullopt;
  return bench.engines.at(*engine).spec->unit;
}

/// A gauge without a wire shows its master too: what is read off it then is its setting.
Decided enter_setting(Draft& draft, const Gauge& gauge, const std::string& typed, Length shown, Unit unit) {
  Frame frame;
  frame.gauge = gauge.name;
  frame.measurement.raw = frame.measurement.text = typed;
  frame.measurement.value = shown;
  frame.measurement.unit = unit;
  frame.arrived = draft.now();
  const std::string study = gauge.awaited->study;
  if (is_far_off(*gauge.awaited, shown))
    return refuse("range", "that is not the master of this turn", "read the gauge on it, and enter it again");
  const std::int64_t seq = take_setting(draft, gauge, *gauge.awaited, frame, false);
  return [seq, study](const View& view) { return on_master_answer(view.bench, seq, study); };
}

}  // namespace

Decided enter(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string typed, params.text("value"));
  TENTH_TRY(const std::optional<std::string> again, params.maybe_text("again"));
  TENTH_TRY(const std::optional<std::string> name, params.maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> gauge, maybe_gauge(draft.bench(), name));
  TENTH_TRY(const std::optional<std::string> note, params.maybe_text("note"));
  const Standing standing = standing_of(draft.bench(), gauge);
  const bool word = answer_from(typed).has_value();
  TENTH_TRY(const bool rest, params.flag("rest"));
  if (word && again && *again != typed)
    return refuse("again", "the two answers differ, so neither is stored", "look again, and enter one");
  if (word || is_check(draft.bench(), standing)) return enter_answer(draft, typed, note, standing, gauge, rest);
  if (rest) return refuse("rest", "a value is that of one place", "--rest goes with yes, no, later or n/a at a check");
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(draft.bench(), standing)));
  TENTH_TRY(const Length value, parse_length(typed, bare));
  if (!again) return wrong_words("again", "a value entered by hand is typed twice", "add --again VALUE");
  TENTH_TRY(const Length second, parse_length(*again, bare));
  if (value != second)
    return refuse("again", "the two values differ, so neither is stored", "read the gauge and enter it again");
  const Gauge* const known = gauge ? &draft.bench().gauges.at(*gauge) : nullptr;
  if (known != nullptr && known->awaited && !waited_too_long(*known->awaited, draft.now()) &&
      (known->awaited->master || known->setting))
    return enter_setting(draft, *known, typed, value, unit_typed(typed, bare));
  Value entered;
  entered.gauge = gauge;
  entered.raw = escape_bytes(typed);
  entered.text = typed;
  entered.unit = unit_typed(typed, bare);
  entered.value = value;
  entered.source = Source::hand;
  entered.note = note;
  const std::int64_t seq = take_value(draft, entered, standing);
  return [seq, gauge](const View& view) {
    return Json{{"reading", reading_event(view.bench, seq)},
                {"place", place_event(view.bench, own_or_common(view.bench, gauge))}};
  };
}

Decided answer_yes(Draft& draft, const Json&) {
  return enter(draft, {{"value", "yes"}});
}

}  // namespace tenth
