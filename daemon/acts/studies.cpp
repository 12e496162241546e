#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/master_studies.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "rules/plausible.hpp"
#include "rules/statistics/plan.hpp"
#include "schema/ledger/place_json.hpp"
#include "schema/store/hash.hpp"

namespace tenth {
namespace {

struct Ask {
  std::string name;
  const Gauge* gauge = nullptr;
  const Feature* feature = nullptr;
  std::vector<std::string> operators;
  int parts = 0, trials = 0;
  std::optional<Length> tolerance;
};

/// First one place of every index, then a second one of each, and so on: parts that differ as much as they can.
std::vector<Place> parts_of(const Feature& feature) {
  std::vector<Place> parts;
  const std::size_t each = places_of(feature, 1).size();
  for (std::size_t k = 0; k < each; ++k)
    for (int index = 1; index <= feature.count(); ++index) parts.push_back(places_of(feature, index)[k]);
  return parts;
}

Result<int> count_of(const Params& params, const char* key) {
  constexpr std::int64_t kMost = 10'000;
  TENTH_TRY(const std::optional<std::int64_t> count, params.maybe_number(key));
  if (!count || *count < 2 || *count > kMost)
    return wrong_words(key, std::string(key) + " is a whole number from 2",
                       "a usual study has 10 parts, 3 operators, 3 trials");
  return static_cast<int>(*count);
}

Result<std::vector<std::string>> known_operators(const Bench& bench, std::vector<std::string> names) {
  for (const std::string& name : names) {
    if (!bench.operators.contains(name))
      return refuse("unknown_operator", "there is no operator `" + name + "`",
                    "`tenth operator add " + name + "` adds one");
    if (std::count(names.begin(), names.end(), name) > 1)
      return wrong_words("operators", "operator `" + name + "` is named twice", "name each once");
  }
  if (names.size() < 2)
    return wrong_words("operators", "a study wants two operators or more", "name them such as --operators ann,bo");
  return names;
}

Result<Ask> ask_of(const Draft& draft, const Engine& engine, const Json& object) {
  const Params params(object);
  Ask ask;
  TENTH_TRY(ask.name, new_study_name(draft.bench(), params));
  TENTH_TRY(const std::string gauge, params.text("gauge"));
  TENTH_TRY(ask.gauge, gauge_named(draft.bench(), gauge));
  TENTH_TRY(const std::string feature, params.text("feature"));
  TENTH_TRY(ask.feature, find_feature(*engine.spec, feature));
  TENTH_TRY(ask.parts, count_of(params, "parts"));
  TENTH_TRY(ask.trials, count_of(params, "trials"));
  TENTH_TRY(std::vector<std::string> operators, params.texts("operators"));
  TENTH_TRY(ask.operators, known_operators(draft.bench(), std::move(operators)));
  TENTH_TRY(const std::optional<Unit> bare, params.unit(engine.spec->unit));
  TENTH_TRY(ask.tolerance, params.maybe_length("tolerance", bare));
  if (ask.tolerance && *ask.tolerance <= Length())
    return wrong_words("tolerance", "a tolerance is above zero", "give the width between the two limits");
  if (!fits_kind(ask.gauge->measures, ask.feature->kind))
    return refuse("wrong_kind", "gauge `" + ask.gauge->name + "` does not measure " + ask.feature->name,
                  "choose a feature of its kind");
  return ask;
}

Json turns_json(const std::vector<statistics::StudyPlace>& plan, const std::vector<Place>& parts, const Ask& ask) {
  Json order = Json::array();
  for (const statistics::StudyPlace& turn : plan) {
    order.push_back({{"place", place_json(parts[static_cast<std::size_t>(turn.part - 1)])},
                     {"part", turn.part},
                     {"trial", turn.trial},
                     {"by", ask.operators[static_cast<std::size_t>(turn.by - 1)]}});
  }
  return order;
}

}  // namespace

/// The plan, and the round that leads through it: the gauge gets a place of its own.
Decided study_plan(Draft& draft, const Json& object) {
  if (object.contains("what")) return plan_on_masters(draft, object);
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const Ask ask, ask_of(draft, *engine, object));
  const std::vector<Place> parts = parts_of(*ask.feature);
  if (static_cast<std::size_t>(ask.parts) > parts.size())
    return refuse("few_parts", ask.feature->name + " has " + std::to_string(parts.size()) + " places to take for parts",
                  "ask for fewer parts");
  const std::string seed = random_hex(8);
  TENTH_TRY(const auto plan, statistics::study_plan(ask.parts, static_cast<int>(ask.operators.size()), ask.trials,
                                                    std::stoull(seed, nullptr, 16)));
  const Json order = turns_json(plan, parts, ask);
  const std::string gauge = ask.gauge->name;
  draft.append("study", {{"study", ask.name},
                         {"engine", engine->name},
                         {"spec", engine->spec_seq},
                         {"gauge", gauge},
                         {"feature", ask.feature->name},
                         {"parts", ask.parts},
                         {"operators", ask.operators},
                         {"trials", ask.trials},
                         {"tolerance_pm", pm(ask.tolerance)},
                         {"seed", seed},
                         {"order", order}});
  Json round = {{"gauge", gauge},
                {"engine", engine->name},
                {"spec", engine->spec_seq},
                {"features", {ask.feature->name}},
                {"by", "study"},
                {"from", nullptr},
                {"again", true},
                {"study", ask.name},
                {"places", Json::array()}};
  for (const Json& turn : order) round["places"].push_back(turn["place"]);
  end_waiting(draft, gauge, "round");
  draft.append("round", std::move(round));
  stand_in_round(draft, gauge, 0);
  return [name = ask.name, gauge, turns = plan.size()](const View& view) {
    return Json{{"study", name}, {"turns", turns}, {"place", place_event(view.bench, gauge)}};
  };
}

}  // namespace tenth
