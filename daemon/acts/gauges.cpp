#include "daemon/acts/acts.hpp"
#include "daemon/acts/gauge_words.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"

namespace tenth {
namespace {

/// A name stands for one instrument in every record: it never goes to another serial number.
Result<std::string> free_name(const Bench& bench, const std::string& name, const std::string& serial) {
  const auto found = bench.gauges.find(name);
  if (found == bench.gauges.end()) return checked_name(name, "a gauge");
  if (!found->second.dropped)
    return refuse("gauge_exists", "there is a gauge `" + name + "` already",
                  "choose another name, or drop that one first");
  if (found->second.serial != serial)
    return refuse("gauge_exists",
                  "the name `" + name + "` belongs to the gauge with serial number `" + found->second.serial + "`",
                  "choose another name: a name never goes to another serial number");
  return name;
}

/// The profile's whole text is kept once, the first time that a gauge uses it.
std::int64_t keep_profile(Draft& draft, const ChosenProfile& chosen) {
  const auto known = draft.bench().profiles.find(chosen.sha256);
  if (known != draft.bench().profiles.end()) return known->second.entry;
  return draft.append("profile", {{"name", chosen.name}, {"text", chosen.text}, {"sha256", chosen.sha256}});
}

/// All that is known of a gauge, as `gauge add` takes it.
Json words_for(const Bench& bench, const Gauge& gauge) {
  const auto typed = [](const std::optional<Length>& length) {
    return length ? Json(exact_mm(*length) + " mm") : Json(nullptr);
  };
  return {{"port", gauge.port},
          {"profile", gauge.profile},
          {"profile_text", bench.profiles.at(gauge.profile_sha256).text},
          {"reads", name(gauge.reads)},
          {"measures", name(gauge.measures)},
          {"gauge_unit", gauge.unit ? Json(name(*gauge.unit)) : Json(nullptr)},
          {"channel", text_or_null(gauge.channel)},
          {"resolution", typed(gauge.resolution)},
          {"drift", typed(gauge.drift)},
          {"uncertainty", typed(gauge.uncertainty)},
          {"repeatability", typed(gauge.repeatability)},
          {"expansion", gauge.expansion ? Json(in_millionths(*gauge.expansion)) : Json(nullptr)},
          {"capture", name(gauge.capture)},
          {"button", text_or_null(gauge.button)},
          {"settle_band", typed(gauge.settle_band)},
          {"settle_for_ms", gauge.settle_for_ms}};
}

}  // namespace

Decided gauge_add(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::optional<std::string> serial, params.maybe_text("serial"));
  TENTH_TRY(const std::string name, free_name(draft.bench(), asked, serial.value_or("")));
  TENTH_TRY(const ChosenProfile chosen, chosen_profile(params));
  TENTH_TRY(Json body, gauge_body(draft, name, serial, params, chosen));
  body["profile_entry"] = keep_profile(draft, chosen);
  draft.append("gauge", std::move(body));
  return [name](const View& view) { return gauge_json(view, view.bench.gauges.at(name)); };
}

Decided gauge_change(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string asked, Params(object).text("name"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), asked));
  TENTH_TRY(const std::optional<std::string> serial, Params(object).maybe_text("serial"));
  if (serial && !gauge->serial.empty() && *serial != gauge->serial)
    return refuse("gauge_exists",
                  "the name `" + asked + "` belongs to the gauge with serial number `" + gauge->serial + "`",
                  "add the other instrument under a name of its own");
  Json words = words_for(draft.bench(), *gauge);
  if (object.contains("profile")) words.erase("profile_text");
  for (const auto& [key, value] : object.items())
    if (!value.is_null()) words[key] = value;
  const Params params(words);
  TENTH_TRY(const ChosenProfile chosen, chosen_profile(params));
  const auto known = serial || gauge->serial.empty() ? serial : std::optional(gauge->serial);
  TENTH_TRY(Json body, gauge_body(draft, asked, known, params, chosen));
  body["previous"] = gauge->entry;
  body["profile_entry"] = keep_profile(draft, chosen);
  draft.append("gauge", std::move(body));
  return [asked](const View& view) { return gauge_json(view, view.bench.gauges.at(asked)); };
}

Decided gauge_drop(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("name"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  draft.append("gauge_drop", {{"gauge", gauge->name}});
  return [name](const View&) { return Json{{"gauge", name}}; };
}

}  // namespace tenth
