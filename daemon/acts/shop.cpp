#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"
#include "rules/place.hpp"

namespace tenth {
namespace {

/// The features in full, each once. There is at least one.
Result<std::vector<std::string>> features_of(const Engine& engine, const Params& params) {
  TENTH_TRY(const std::vector<std::string> words, params.texts("features"));
  if (words.empty()) return wrong_words("features", "no feature is named", "name the features whose parts they are");
  std::vector<std::string> features;
  for (const std::string& word : words) {
    TENTH_TRY(const Feature* const feature, find_feature(*engine.spec, word));
    if (feature->kind == Kind::check)
      return refuse("no_part", feature->name + " is a check: no part of it goes anywhere",
                    "name a feature that is measured");
    if (std::ranges::find(features, feature->name) == features.end()) features.push_back(feature->name);
  }
  return features;
}

Result<std::optional<AskedSize>> asked_size(const Engine& engine, const Params& params) {
  TENTH_TRY(const std::optional<Unit> bare, params.unit(engine.spec->unit));
  TENTH_TRY(const std::optional<Length> size, params.maybe_amount("size", bare));
  TENTH_TRY(const std::optional<Length> within, params.maybe_amount("within", bare));
  if (within && !size) return wrong_words("within", "a tolerance alone asks for nothing", "add --size L");
  if (!size) return std::nullopt;
  return AskedSize{*size, within.value_or(Length())};
}

/// Told by the engine's own words once it is on disk.
Answerer answer(Json said, std::int64_t seq) {
  said["seq"] = seq;
  return [said = std::move(said)](const View&) { return said; };
}

}  // namespace

/// Said of the feature's present stage.
Decided setup_done(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string word, params.text("feature"));
  TENTH_TRY(const std::string yes, params.text("answer"));
  if (yes != "yes")
    return wrong_words("answer", "a setup is said to be done, or not at all", "tenth setup FEATURE yes");
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const Feature* const feature, find_feature(*engine->spec, word));
  if (feature->kind == Kind::check)
    return refuse("no_setup", feature->name + " is a check: it is answered, not set up",
                  "tenth at " + feature->name + ", then tenth enter yes");
  const Stage& stage = stage_of(*engine, feature->name);
  Json said = {{"engine", engine->name},
               {"feature", feature->name},
               {"stage", stage.name},
               {"setup", text_or_null(feature->setup)}};
  Json body = said;
  body.update({{"spec", engine->spec_seq}, {"stage_entry", number_or_null(stage.entry)}});
  return answer(std::move(said), draft.append("setup", std::move(body)));
}

Decided send_parts(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const std::vector<std::string> features, features_of(*engine, params));
  TENTH_TRY(const std::string to, params.words("to"));
  TENTH_TRY(const std::string ask, params.words("ask"));
  TENTH_TRY(const std::optional<AskedSize> size, asked_size(*engine, params));
  for (const std::string& feature : features)
    if (is_away(*engine, feature))
      return refuse("away", feature + " is at " + engine->sent.at(feature).to + " already",
                    "say when it is back: tenth receive " + feature);
  Json said = {{"engine", engine->name},
               {"features", features},
               {"to", to},
               {"ask", ask},
               {"unit", name(engine->spec->unit)},
               {"size_mm", size ? mm(size->size) : Json(nullptr)},
               {"within_mm", size ? mm(size->within) : Json(nullptr)}};
  Json body = {{"engine", engine->name},
               {"spec", engine->spec_seq},
               {"features", features},
               {"to", to},
               {"ask", ask},
               {"unit", name(engine->spec->unit)},
               {"size_pm", size ? Json(size->size.pm()) : Json(nullptr)},
               {"within_pm", size ? Json(size->within.pm()) : Json(nullptr)}};
  return answer(std::move(said), draft.append("send", std::move(body)));
}

/// What comes back is measured again: that is a stage, which the builder names.
Decided receive_parts(Draft& draft, const Json& object) {
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const std::vector<std::string> features, features_of(*engine, Params(object)));
  Json sent = Json::array();
  for (const std::string& feature : features) {
    if (!is_away(*engine, feature))
      return refuse("not_away", feature + " is here", "only what was sent can come back: tenth send");
    sent.push_back(engine->sent.at(feature).seq);
  }
  Json said = {{"engine", engine->name}, {"features", features}};
  Json body = said;
  body.update({{"spec", engine->spec_seq}, {"seqs", sent}});
  return answer(std::move(said), draft.append("receive", std::move(body)));
}

}  // namespace tenth
