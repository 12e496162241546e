#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"
#include "rules/couples.hpp"
#include "rules/figure.hpp"
#include "rules/place.hpp"

namespace tenth {
namespace {

/// The act's own words with its seq: what is answered, and what the entry holds beside the seqs it rests on.
Decided told(Draft& draft, const std::string& kind, const Engine& engine, Json said,
             const Json& rests_on = Json::object()) {
  said["engine"] = engine.name;
  Json body = said;
  body["spec"] = engine.spec_seq;
  body.update(rests_on);
  said["seq"] = draft.append(kind, std::move(body));
  return [said](const View&) { return said; };
}

/// The shop's own name of a part: a stock id, or what is written on its box.
Result<std::string> part_of(const Params& params) {
  TENTH_TRY(const std::string part, params.text("part"));
  const auto control = [](unsigned char c) { return c < 0x20 || c == 0x7F; };
  if (std::ranges::any_of(part, control) || part.find_first_not_of(' ') == std::string::npos)
    return wrong_words("part", "that is no name of a part", "write its stock id, or what is written on its box");
  return checked_name(part, "a part");
}

Result<std::optional<std::string>> half_of(const Params& params, const Feature& feature) {
  TENTH_TRY(std::optional<std::string> half, params.maybe_text("half"));
  if (half && *half != "upper" && *half != "lower")
    return wrong_words("half", "`" + *half + "` is no half of a bearing", "--half upper or --half lower");
  if (half && feature.kind != Kind::inside)
    return refuse("half", feature.name + " has no halves: only bearings, which are measured inside, come in two",
                  "leave --half out");
  return half;
}

/// The index may be left out where the feature has one only.
Result<int> index_of(const Feature& feature, const std::optional<std::string>& label) {
  if (label) return find_index(feature, *label);
  if (feature.count() == 1) return 1;
  return refuse("missing_index", feature.name + " needs an index",
                "say which: `tenth install " + feature.name + " INDEX PART`");
}

Json end_json(const Feature& feature, int index) {
  return {{"index", index}, {"label", label_of(feature, index)}};
}

int outside_of(const std::vector<Couple>& couples, int index) {
  return std::ranges::find(couples, index, &Couple::inside_index)->outside_index;
}

}  // namespace

/// Advice changes nothing by itself, and neither does a decision: it is kept with its reason. The remedy's id is that
/// of the advice as it was read; remedies are worked out anew each time, so it cannot be looked up.
Decided make_decision(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string text, params.words("text"));
  TENTH_TRY(const std::optional<std::string> remedy, params.maybe_text("remedy"));
  TENTH_TRY(const std::string reason, reason_of(params));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  return told(draft, "decide", *engine, {{"text", text}, {"remedy", or_null(remedy)}, {"reason", reason}});
}

/// Another part: what was read at that index is of the one that sat there before.
Decided install_part(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string word, params.text("feature"));
  TENTH_TRY(const std::optional<std::string> label, params.maybe_text("index"));
  TENTH_TRY(const std::string part, part_of(params));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const Feature* const feature, find_feature(*engine->spec, word));
  TENTH_TRY(const int index, index_of(*feature, label));
  TENTH_TRY(const std::optional<std::string> half, half_of(params, *feature));
  if (feature->kind == Kind::check)
    return refuse("no_part", feature->name + " is a check: no part sits there",
                  "name the feature that the part is measured as");
  Json places = Json::array();
  for (const Place& place : places_of(*feature, index)) places.push_back(slashed(place, *engine->spec));
  const Stage& stage = stage_of(*engine, feature->name);
  Json said = end_json(*feature, index);
  said.update(
      {{"feature", feature->name}, {"part", part}, {"half", or_null(half)}, {"stage", stage.name}, {"places", places}});
  return told(draft, "install", *engine, std::move(said), {{"stage_entry", number_or_null(stage.entry)}});
}

/// Says who lost its mate (`lost`, inside) and which part has none now (`freed`, outside).
Decided mate_parts(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string word, params.text("fit"));
  TENTH_TRY(const std::string label, params.text("index"));
  TENTH_TRY(const std::string outside_label, params.text("outside_index"));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  TENTH_TRY(const Fit* const fit, find_fit(*engine->spec, word));
  const Feature &inside = *engine->spec->find(fit->inside), &outside = *engine->spec->find(fit->outside);
  TENTH_TRY(const int index, find_index(inside, label));
  TENTH_TRY(const int outside_index, find_index(outside, outside_label));
  const std::vector<Couple> before = couples_of(*engine, *fit);
  const int left = outside_of(before, index);
  if (left == outside_index)
    return refuse("mated", "these two go together already", "`tenth check` shows who goes with whom");
  Engine after;
  after.mates = engine->mates;
  mate(after, *fit, index, outside_index);
  Json lost = Json::array();
  for (const Couple& couple : couples_of(after, *fit))
    if (couple.outside_index == 0 && outside_of(before, couple.inside_index) != 0)
      lost.push_back(end_json(inside, couple.inside_index));
  Json said = end_json(inside, index);
  said.update({{"fit", fit->name},
               {"inside", inside.name},
               {"outside", outside.name},
               {"outside_index", outside_index},
               {"outside_label", label_of(outside, outside_index)},
               {"lost", lost},
               {"freed", left != 0 ? end_json(outside, left) : Json(nullptr)}});
  return told(draft, "mate", *engine, std::move(said));
}

}  // namespace tenth
