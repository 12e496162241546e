#include "schema/wire/views.hpp"

#include <cmath>
#include <map>

#include "rules/outlying.hpp"
#include "rules/returned.hpp"
#include "schema/wire/number_json.hpp"

namespace tenth {
namespace {

template <class Enum>
Json name_or_null(const std::optional<Enum>& value) {
  return value ? Json(name(*value)) : Json(nullptr);
}

template <class T, class View>
Json array_of(const std::vector<T>& items, View view) {
  Json array = Json::array();
  for (const T& item : items) array.push_back(view(item));
  return array;
}

/// Twelve places are more than a probability is worth, and the last bits of `erfc` differ between systems: a record
/// must verify on every one.
Json probability_json(const std::optional<double>& probability) {
  constexpr double kPlaces = 1e12;
  return probability ? Json(std::round(*probability * kPlaces) / kPlaces) : Json(nullptr);
}

Json reason_json(const Reason& reason) {
  return {{"what", reason.what},
          {"value_mm", mm(reason.value)},
          {"limit_mm", mm(reason.limit)},
          {"side", name_or_null(reason.side)},
          {"verdict", name(reason.verdict)}};
}

Json corrected_json(Corrected corrected) {
  if (corrected == Corrected::none || corrected == Corrected::both) return corrected == Corrected::both;
  return name(corrected);
}

/// The shape asked for beside the one found; null where the spec asks for none.
Json shape_json(const FeatureResult& result) {
  if (!result.shape_asked) return nullptr;
  const auto& found = result.shape;
  return {{"asked", name(*result.shape_asked)},
          {"found", found ? Json(name(found->shape)) : Json(nullptr)},
          {"signed_taper_mm", found ? mm(found->taper) : Json(nullptr)},
          {"belly_mm", found ? mm(found->belly) : Json(nullptr)}};
}

void add_place(Json& json, const std::optional<Place>& place, const std::string& label) {
  json["feature"] = place ? Json(place->feature) : Json(nullptr);
  json["index"] = place ? Json(place->index) : Json(nullptr);
  json["label"] = text_or_null(label);
  json["level"] = place ? text_or_null(place->level) : Json(nullptr);
  json["axis"] = place ? text_or_null(place->axis) : Json(nullptr);
}

Json outlying_json(const Outlying& outlying) {
  Json json = {{"seq", outlying.seq},
               {"size_mm", mm(outlying.size)},
               {"among", outlying.among},
               {"distance", estimated(outlying.distance)},
               {"critical", estimated(outlying.critical)}};
  add_place(json, outlying.place, outlying.label);
  return json;
}

Json spread_json(const SpreadResult& result) {
  return {{"feature", result.feature},
          {"spread_mm", mm(result.spread)},
          {"limit_mm", mm(result.limit)},
          {"uncertainty_mm", mm(result.uncertainty)},
          {"verdict", name_or_null(result.verdict)}};
}

Json check_json(const CheckResult& result) {
  return {{"feature", result.feature},
          {"index", result.index},
          {"label", result.label},
          {"answer", name_or_null(result.answer)},
          {"note", text_or_null(result.note)},
          {"verdict", name_or_null(result.verdict)}};
}

Json returned_json(const Returned& part) {
  return {{"feature", part.feature},
          {"index", part.index},
          {"label", part.label},
          {"from", part.to},
          {"asked_mm", mm(part.asked.size)},
          {"within_mm", mm(part.asked.within)},
          {"min_mm", mm(part.min)},
          {"max_mm", mm(part.max)},
          {"uncertainty_mm", mm(part.uncertainty)},
          {"verdict", name(part.verdict)}};
}

}  // namespace

Json feature_json(const FeatureResult& result) {
  return {{"feature", result.feature},
          {"index", result.index},
          {"label", result.label},
          {"stage", text_or_null(result.stage)},
          {"carried", result.carried},
          {"corrected", result.corrected},
          {"mean_mm", mm(result.mean)},
          {"min_mm", mm(result.min)},
          {"max_mm", mm(result.max)},
          {"out_of_round_mm", mm(result.out_of_round)},
          {"out_of_round_by", name(result.out_of_round_by)},
          {"out_of_round_method", result.out_of_round ? Json("two-point") : Json(nullptr)},
          {"taper_mm", mm(result.taper)},
          {"taper_by", name(result.taper_by)},
          {"shape", shape_json(result)},
          {"readings", result.readings},
          {"missing", result.missing},
          {"uncertainty_mm", mm(result.uncertainty)},
          {"verdict", name_or_null(result.verdict)},
          {"reasons", array_of(result.reasons, reason_json)}};
}

Json fit_json(const FitResult& result) {
  return {{"fit", result.fit},
          {"index", result.index},
          {"outside_index", number_or_null(result.outside_index)},
          {"label", result.label},
          {"outside_label", text_or_null(result.outside_label)},
          {"inside_stage", text_or_null(result.inside_stage)},
          {"outside_stage", text_or_null(result.outside_stage)},
          {"min_mm", mm(result.min)},
          {"mean_mm", mm(result.mean)},
          {"max_mm", mm(result.max)},
          {"lower_mm", mm(result.lower)},
          {"upper_mm", mm(result.upper)},
          {"target_mm", mm(result.target)},
          {"uncertainty_mm", mm(result.uncertainty)},
          {"probability", probability_json(result.probability)},
          {"corrected", corrected_json(result.corrected)},
          {"verdict", name_or_null(result.verdict)},
          {"reasons", array_of(result.reasons, reason_json)}};
}

Json reading_json(const Reading& reading, bool counts, bool carried) {
  Json json = {
      {"seq", reading.seq},
      {"time", reading.time},
      {"engine", or_null(reading.engine)},
      {"operator", or_null(reading.operator_name)},
      {"gauge", or_null(reading.gauge)},
      {"raw", reading.raw},
      {"text", reading.text},
      {"unit", name(reading.unit)},
      {"value_mm", mm(reading.value)},
      {"size_mm", mm(reading.size)},
      {"size_20c_mm", mm(reading.size_20c)},
      {"state", name(reading.state)},
      {"hash", text_or_null(reading.hash)},
      {"stage", text_or_null(reading.stage)},
      {"counts", counts},
      {"doubts", array_of(reading.doubts, [](Doubt doubt) { return Json(name(doubt)); })},
      {"reason", or_null(reading.reason)},
      {"source", name(reading.source)},
      {"moved_from", reading.moved_from ? Json(slashed(*reading.moved_from, reading.moved_from_label)) : Json(nullptr)},
      {"setting", or_null(reading.setting)},
      {"closed", reading.closed},
      {"overdue", reading.overdue},
      {"carried", carried},
      {"spread_mm", mm(reading.spread)},
      {"passes", or_null(reading.passes)},
      {"claimed_by", text_or_null(reading.claimed_by)},
      {"measured_at", text_or_null(reading.measured_at)},
      {"note", text_or_null(reading.note)}};
  add_place(json, reading.place, reading.label);
  return json;
}

Json readings_json(const Engine& engine, bool all) {
  std::map<std::int64_t, bool> carried;  // by the seq of a reading that counts
  for (const auto& [place, counting] : counting(engine))
    for (const std::int64_t seq : counting.seqs) carried[seq] = counting.carried;
  Json array = Json::array();
  for (const Reading& reading : engine.readings) {
    const auto found = carried.find(reading.seq);
    const bool counts = found != carried.end();
    if (all || counts) array.push_back(reading_json(reading, counts, counts && found->second));
  }
  return array;
}

Json report_json(const Report& report) {
  return {{"engine", report.engine},
          {"spec", report.spec_seq},
          {"features", array_of(report.features, feature_json)},
          {"fits", array_of(report.fits, fit_json)},
          {"spreads", array_of(report.spreads, spread_json)},
          {"checks", array_of(report.checks, check_json)},
          {"verdict", name_or_null(report.verdict)}};
}

Json unconfirmed_json(const Engine& engine, const CountingMap& counts) {
  Json array = Json::array();
  for (const auto& [gauge, seqs] : unconfirmed(engine, counts))
    array.push_back({{"gauge", gauge}, {"readings", seqs.size()}});
  return array;
}

Json away_json(const Engine& engine) {
  Json array = Json::array();
  for (const auto& [feature, sent] : engine.sent)
    if (!sent.received)
      array.push_back({{"feature", feature},
                       {"to", sent.to},
                       {"ask", sent.ask},
                       {"since", sent.time},
                       {"size_mm", sent.size ? mm(sent.size->size) : Json(nullptr)},
                       {"within_mm", sent.size ? mm(sent.size->within) : Json(nullptr)}});
  return array;
}

Json check_document(const Engine& engine) {
  const Report report = judge(engine);
  Json json = report_json(report);
  json["unconfirmed"] = unconfirmed_json(engine, report.counts);
  json["away"] = away_json(engine);
  json["returned"] = array_of(returned(engine, report.counts), returned_json);
  json["outliers"] = array_of(outlying(engine), outlying_json);
  json["title"] = engine.spec->title;
  json["unit"] = name(engine.spec->unit);
  return json;
}

Json alert_json(const Alert& alert) {
  return {{"id", alert.id},
          {"event", "alert"},
          {"time", alert.time},
          {"engine", or_null(alert.cause.engine)},
          {"severity", name(alert.cause.severity)},
          {"what", name(alert.cause.what)},
          {"subject", alert.cause.subject},
          {"text", alert.cause.text},
          {"value_mm", mm(alert.cause.value)},
          {"limit_mm", mm(alert.cause.limit)},
          {"seqs", alert.cause.seqs},
          {"state", name(alert.state)},
          {"note", text_or_null(alert.note)},
          {"cleared_by", text_or_null(alert.cleared_by)}};
}

const std::vector<std::string>& reading_keys() {
  static const std::vector<std::string> keys = {
      "seq",     "time",      "engine", "feature",    "index",       "level",       "axis",    "operator", "gauge",
      "raw",     "text",      "unit",   "value_mm",   "size_mm",     "size_20c_mm", "state",   "hash",     "label",
      "stage",   "counts",    "doubts", "reason",     "source",      "moved_from",  "setting", "closed",   "overdue",
      "carried", "spread_mm", "passes", "claimed_by", "measured_at", "note"};
  return keys;
}

}  // namespace tenth
