#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"

namespace tenth {
namespace {

/// The names of the features in full.
Result<Json> features_of(const Engine& engine, const std::vector<std::string>& words) {
  Json features = Json::array();
  for (const std::string& word : words) {
    TENTH_TRY(const Feature* const feature, find_feature(*engine.spec, word));
    features.push_back(feature->name);
  }
  return features;
}

/// The words as typed: they are exact and read again by whoever folds the ledger.
Result<Json> told(const Params& params) {
  TENTH_TRY(const std::string part, params.text("part"));
  TENTH_TRY(const std::optional<std::string> gauge, params.maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> within, params.maybe_text("within"));
  TENTH_TRY([[maybe_unused]] const Warmth part_warmth, parse_temperature(part));
  if (gauge) {
    TENTH_TRY([[maybe_unused]] const Warmth gauge_warmth, parse_temperature(*gauge));
  }
  if (within) {
    TENTH_TRY([[maybe_unused]] const Warmth range, parse_within(*within));
  }
  return Json{{"part", part}, {"gauge_at", or_null(gauge)}, {"within", or_null(within)}};
}

/// Features whose parts are not corrected all the same, since nobody said what they are made of.
Json uncorrected(const Engine& engine, const Json& features) {
  Json names = Json::array();
  for (const Feature& feature : engine.spec->features) {
    const bool meant = features.empty() || std::find(features.begin(), features.end(), feature.name) != features.end();
    const bool has_size = feature.kind != Kind::gap && feature.kind != Kind::check;
    if (meant && has_size && !expansion_of(*engine.spec, feature)) names.push_back(feature.name);
  }
  return names;
}

}  // namespace

Decided temperature(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(Json body, told(params));
  TENTH_TRY(const std::vector<std::string> words, params.texts("features"));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const Json features, features_of(*engine, words));
  body.update({{"engine", engine->name}, {"features", features}});
  Json answer = body;
  answer["uncorrected"] = uncorrected(*engine, features);
  answer["life_h"] = draft.rules().temperature_life_h;
  draft.append("temperature", std::move(body));
  return [answer](const View&) { return answer; };
}

}  // namespace tenth
