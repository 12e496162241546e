#include "rules/respec.hpp"

#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/params.hpp"
#include "rules/place.hpp"
#include "schema/spec/spec_file.hpp"

namespace tenth {
namespace {

/// A planned study counts on every place of its order.
const Study* study_without_place(const Bench& bench, const std::string& engine, const Spec& after) {
  const auto lost = [&](const StudyTurn& turn) { return !has_place(after, turn.place); };
  for (const auto& [name, study] : bench.studies)
    if (study.engine == engine && std::ranges::any_of(study.order, lost)) return &study;
  return nullptr;
}

/// What was measured stays measured: a version that has no room for it is refused.
Result<Spec> later_version(const Bench& bench, const Engine& engine, const std::string& text, const std::string& file) {
  TENTH_TRY(Spec spec, parse_spec(text, file));
  if (const Study* const study = study_without_place(bench, engine.name, spec))
    return refuse("place_vanishes", file + " has no room for the parts of study " + study->name,
                  "keep what " + study->feature + " has: its indexes, levels and axes");
  const std::vector<Place> gone = vanishing(engine, spec);
  if (gone.empty()) return spec;
  const std::string place = spoken(gone.front(), *engine.spec);
  const std::string more =
      gone.size() > 1 ? ", nor for " + std::to_string(gone.size() - 1) + " more places that have" : "";
  return refuse("place_vanishes", file + " has no room for " + place + ", which has readings" + more,
                "keep the feature, its kind, and that index, level and axis; or add another engine");
}

/// Where somebody stands at a place that the later version lacks: the gauge of that standing, none for the common one.
std::vector<std::optional<std::string>> displaced(const Bench& bench, const std::string& engine, const Spec& after) {
  const auto lost = [&](const Standing& standing) {
    return standing.engine == engine && standing.place && !has_place(after, *standing.place);
  };
  std::vector<std::optional<std::string>> gauges;
  if (lost(bench.common)) gauges.emplace_back();
  for (const auto& [gauge, standing] : bench.own)
    if (lost(standing)) gauges.emplace_back(gauge);
  return gauges;
}

/// On a round that is the next place it still has; else there is none.
void stand_again(Draft& draft, const std::optional<std::string>& gauge) {
  const Standing& standing = standing_of(draft.bench(), gauge);
  if (!standing.round) return leave_place(draft, gauge);
  const Engine& engine = draft.bench().engines.at(*standing.engine);
  stand_in_round(draft, gauge, next_open(engine, *standing.round, standing.at));
}

Json changes_json(const std::vector<SpecChange>& changes) {
  Json array = Json::array();
  for (const SpecChange& change : changes)
    array.push_back({{"of", change.of},
                     {"name", text_or_null(change.name)},
                     {"key", text_or_null(change.key)},
                     {"from", or_null(change.from)},
                     {"to", or_null(change.to)}});
  return array;
}

}  // namespace

Decided engine_respec(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string file, params.text("file"));
  TENTH_TRY(const std::string text, params.file("text"));
  TENTH_TRY(const std::string reason, reason_of(params));
  TENTH_TRY(const Engine* const engine, engine_named(draft.bench(), asked));
  TENTH_TRY(const Spec spec, later_version(draft.bench(), *engine, text, file));
  const std::string name = engine->name;
  const std::int64_t previous = engine->spec_seq;
  const Json changes = changes_json(difference(*engine->spec, spec));
  const auto moved = displaced(draft.bench(), name, spec);
  const auto seq = draft.append("spec", {{"engine", name},
                                         {"title", spec.title},
                                         {"file", file},
                                         {"text", text},
                                         {"reason", reason},
                                         {"previous", previous}});
  for (const auto& gauge : moved) stand_again(draft, gauge);
  const Json answer = {{"engine", name}, {"spec", seq}, {"previous", previous}, {"changes", changes}};
  return [answer](const View&) { return answer; };
}

}  // namespace tenth
