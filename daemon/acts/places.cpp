#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "schema/ledger/place_json.hpp"

namespace tenth {
namespace {

/// Answers with the place as it stands then, and whose waiting for a master it ended.
Answerer answer_place(const std::optional<std::string>& gauge, const std::vector<std::string>& ended) {
  return [gauge, ended](const View& view) {
    Json json = place_event(view.bench, gauge);
    json["ended"] = ended;
    return json;
  };
}

Result<std::optional<std::string>> gauge_param(const Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> name, Params(object).maybe_text("gauge"));
  return maybe_gauge(draft.bench(), name);
}

/// The round that a gauge walks, or the common one. A gauge named has to have its own.
Result<std::optional<std::string>> round_owner(const Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> gauge, gauge_param(draft, object));
  const std::optional<std::string> own = own_or_common(draft.bench(), gauge);
  if (!standing_of(draft.bench(), own).round)
    return refuse("no_round", gauge ? "gauge `" + *gauge + "` is on no round" : "there is no round",
                  "begin one: `tenth round FEATURE …`");
  return own;
}

Result<RoundAsk> round_ask(const Json& object) {
  const Params params(object);
  RoundAsk ask;
  TENTH_TRY(ask.features, params.texts("features"));
  if (ask.features == std::vector<std::string>{"all"}) ask.features.clear();
  TENTH_TRY(const std::optional<std::string> by, params.maybe_text("by"));
  TENTH_TRY(const std::optional<std::string> from, params.maybe_text("from"));
  TENTH_TRY(ask.again, params.flag("again"));
  if (by && *by != "feature" && *by != "index")
    return wrong_words("by", "`" + *by + "` is no order of a round", "--by feature or --by index");
  if (by == "index") ask.by = RoundBy::index;
  ask.from = from.value_or("");
  return ask;
}

Json round_body(const std::optional<std::string>& gauge, const Engine& engine, const RoundAsk& ask,
                const std::vector<Place>& places) {
  Json body = {
      {"gauge", or_null(gauge)}, {"engine", engine.name}, {"spec", engine.spec_seq}, {"features", ask.features}};
  body["by"] = ask.by == RoundBy::index ? "index" : "feature";
  body["from"] = text_or_null(ask.from);
  body["again"] = ask.again;
  body["places"] = Json::array();
  for (const Place& place : places) body["places"].push_back(place_json(place));
  return body;
}

}  // namespace

Decided at(Draft& draft, const Json& object) {
  TENTH_TRY(const std::vector<std::string> words, Params(object).texts("words"));
  TENTH_TRY(const std::optional<std::string> gauge, gauge_param(draft, object));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const Place place, find_place(*engine->spec, words));
  const auto ended = end_waiting(draft, gauge, "at");
  choose_place(draft, gauge, engine->name, place);
  return answer_place(gauge, ended);
}

Decided at_common(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("gauge"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  const auto ended = end_waiting(draft, gauge->name, "at");
  draft.append("common", {{"gauge", gauge->name}});
  return answer_place(name, ended);
}

Decided at_none(Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> gauge, gauge_param(draft, object));
  const auto ended = end_waiting(draft, gauge, "at");
  leave_place(draft, gauge);
  return answer_place(gauge, ended);
}

Decided round_begin(Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> gauge, gauge_param(draft, object));
  TENTH_TRY(const RoundAsk ask, round_ask(object));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(std::vector<Place> places, round_order(*engine->spec, ask));
  if (!ask.again) std::erase_if(places, [&](const Place& place) { return satisfied(*engine, place); });
  if (places.empty())
    return refuse("nothing_left", "everything on this round is measured in this stage",
                  "`--again` measures it once more");
  const auto ended = end_waiting(draft, gauge, "round");
  draft.append("round", round_body(gauge, *engine, ask, places));
  stand_in_round(draft, gauge, 0);
  return answer_place(gauge, ended);
}

Decided round_next(Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> gauge, round_owner(draft, object));
  const Standing& standing = standing_of(draft.bench(), gauge);
  if (!standing.place) return refuse("round_done", "the round is at its end", "begin another, or `tenth back`");
  const Engine& engine = draft.bench().engines.at(*standing.engine);
  const std::size_t at = next_open(engine, *standing.round, standing.at + 1);
  const auto ended = end_waiting(draft, gauge, "next");
  stand_in_round(draft, gauge, at);
  return answer_place(gauge, ended);
}

Decided round_back(Draft& draft, const Json& object) {
  TENTH_TRY(const std::optional<std::string> gauge, round_owner(draft, object));
  const Standing& standing = standing_of(draft.bench(), gauge);
  if (standing.at == 0) return refuse("round_begin", "the round stands at its first place", "press the gauge there");
  const std::size_t before = standing.at - 1;
  const auto ended = end_waiting(draft, gauge, "back");
  stand_in_round(draft, gauge, before);
  return answer_place(gauge, ended);
}

}  // namespace tenth
