#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/acts/standing.hpp"
#include "daemon/params.hpp"
#include "rules/place.hpp"
#include "schema/spec/spec_file.hpp"

namespace tenth {

Decided engine_add(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string name, checked_name(asked, "an engine"));
  TENTH_TRY(const std::string file, params.text("file"));
  TENTH_TRY(const std::string text, params.file("text"));
  if (draft.bench().engines.contains(name))
    return refuse("engine_exists", "there is an engine `" + name + "` already", "choose another name");
  TENTH_TRY(const Spec spec, parse_spec(text, file));
  const auto seq = draft.append("spec", {{"engine", name}, {"title", spec.title}, {"file", file}, {"text", text}});
  draft.append("engine", {{"engine", name}, {"spec", seq}});
  const bool first = !draft.bench().engine;
  if (first) draft.append("engine_use", {{"engine", name}});
  std::size_t places = 0;
  for (const Feature& feature : spec.features)
    for (int index = 1; index <= feature.count(); ++index) places += places_of(feature, index).size();
  const Json answer = {
      {"engine", name}, {"spec", seq}, {"in_use", first}, {"features", spec.features.size()}, {"places", places}};
  return [answer](const View&) { return answer; };
}

Decided engine_use(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("name"));
  TENTH_TRY(const Engine* const engine, engine_named(draft.bench(), name));
  if (draft.bench().common.place) leave_place(draft, std::nullopt);
  draft.append("engine_use", {{"engine", engine->name}});
  return [name](const View&) { return Json{{"engine", name}}; };
}

namespace {

/// The features named, else all of the spec.
Result<std::vector<std::string>> features_of(const Engine& engine, const std::vector<std::string>& words) {
  std::vector<std::string> features;
  for (const std::string& word : words) {
    TENTH_TRY(const Feature* const feature, find_feature(*engine.spec, word));
    if (std::find(features.begin(), features.end(), feature->name) == features.end()) features.push_back(feature->name);
  }
  if (words.empty())
    for (const Feature& feature : engine.spec->features) features.push_back(feature.name);
  return features;
}

}  // namespace

Decided stage_begin(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string name, checked_name(asked, "a stage"));
  TENTH_TRY(const std::vector<std::string> words, params.texts("features"));
  TENTH_TRY(const bool carry, params.flag("carry"));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(std::vector<std::string> features, features_of(*engine, words));
  std::erase_if(features, [&](const std::string& feature) { return stage_of(*engine, feature).name == name; });
  if (features.empty())
    return refuse("stage", "all of these features are in stage `" + name + "` already", "name another stage");
  draft.append("stage", {{"engine", engine->name}, {"name", name}, {"features", features}, {"carry", carry}});
  const Json answer = {{"stage", name}, {"features", features}};
  return [answer](const View&) { return answer; };
}

}  // namespace tenth
