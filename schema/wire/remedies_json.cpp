#include "schema/wire/remedies_json.hpp"

namespace tenth {
namespace {

Json half_json(const HalfStep& step) {
  return {{"index", step.index}, {"label", step.label}, {"half", name(step.half)}, {"out", step.out}, {"in", step.in}};
}

/// A remedy of kind `part` says which spare; a matching says what was there and what comes.
Json take_json(const TakeStep& step, RemedyKind kind) {
  if (kind == RemedyKind::part) return {{"index", step.index}, {"label", step.label}, {"part", step.part}};
  return {{"index", step.index},
          {"label", step.label},
          {"now", number_or_null(step.now)},
          {"take", step.part.empty() ? Json(step.take) : Json(step.part)},
          {"moved", true}};
}

/// Only a grinder keeps a tolerance.
Json cut_json(const CutStep& step, RemedyKind kind) {
  Json json = {{"index", step.index},
               {"label", step.label},
               {"now_mm", mm(step.now)},
               {"ask_mm", mm(step.ask)},
               {"off_mm", mm(step.off)}};
  if (kind == RemedyKind::grind) json.update({{"low_mm", mm(step.low)}, {"high_mm", mm(step.high)}});
  return json;
}

Json after_json(const After& after) {
  return {{"index", after.index},
          {"label", text_or_null(after.label)},
          {"min_mm", mm(after.min)},
          {"mean_mm", mm(after.mean)},
          {"max_mm", mm(after.max)},
          {"uncertainty_mm", mm(after.uncertainty)},
          {"verdict", after.verdict ? Json(name(*after.verdict)) : Json(nullptr)}};
}

template <class T, class View>
Json array_of(const std::vector<T>& items, View view) {
  Json array = Json::array();
  for (const T& item : items) array.push_back(view(item));
  return array;
}

Json steps_json(const Remedy& remedy) {
  if (!remedy.cuts.empty())
    return array_of(remedy.cuts, [&](const CutStep& step) { return cut_json(step, remedy.kind); });
  if (!remedy.takes.empty())
    return array_of(remedy.takes, [&](const TakeStep& step) { return take_json(step, remedy.kind); });
  return array_of(remedy.halves, half_json);
}

Json remedy_json(const Remedy& remedy) {
  Json json = {{"id", remedy.id},
               {"kind", name(remedy.kind)},
               {"fit", text_or_null(remedy.fit)},
               {"undo", name(remedy.undo)},
               {"enough", remedy.enough},
               {"in", remedy.in},
               {"of", remedy.of},
               {"off_target_mm", mm(remedy.off_target)},
               {"after", array_of(remedy.after, after_json)},
               {"text", remedy.text},
               {"cautions", remedy.cautions}};
  if (!remedy.feature.empty()) json["feature"] = remedy.feature;
  if (remedy.moved > 0) json["moved"] = remedy.moved;
  if (remedy.kind == RemedyKind::combined)
    json["parts"] = remedy.parts;
  else
    json["steps"] = steps_json(remedy);
  if (remedy.kind == RemedyKind::grind) {
    json["undersize_mm"] = mm(remedy.undersize);
    json["shells"] = array_of(remedy.halves, half_json);
  }
  return json;
}

Json none_json(const NoRemedy& none) {
  Json json = {{"fit", text_or_null(none.fit)}, {"index", number_or_null(none.index)}, {"why", none.why}};
  json["label"] = text_or_null(none.label);
  if (!none.feature.empty()) json["feature"] = none.feature;
  return json;
}

}  // namespace

Json remedies_json(const RemedyHead& head, const RemedyList& list) {
  const Json stock = head.sha256.empty() ? Json(nullptr) : Json{{"title", head.stock_title}, {"sha256", head.sha256}};
  return {{"engine", head.engine},
          {"seq", head.seq},
          {"stock", stock},
          {"remedies", array_of(list.remedies, remedy_json)},
          {"none", array_of(list.none, none_json)}};
}

}  // namespace tenth
