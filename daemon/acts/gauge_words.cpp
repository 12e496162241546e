#include "daemon/acts/gauge_words.hpp"

#include <filesystem>

#include "daemon/acts/lookup.hpp"
#include "drivers/catalog.hpp"
#include "drivers/keys/key_map.hpp"
#include "drivers/port_name.hpp"
#include "rules/nearest.hpp"
#include "schema/profile/profile_file.hpp"
#include "schema/store/hash.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

/// The device behind a path, so that two names of one port are the same port.
std::string device_of(const std::string& port) {
  std::error_code error;
  if (!port.starts_with('/')) return port;
  const fs::path real = fs::weakly_canonical(port, error);
  return error ? port : real.string();
}

/// Several gauges may hang on one port, if they speak alike and each has its channel.
Result<std::string> checked_port(const Bench& bench, const std::string& gauge, const std::string& port,
                                 const std::string& channel, const ChosenProfile& chosen, std::optional<Unit> unit) {
  TENTH_TRY(const drivers::PortName name, drivers::parse_port(port));
  if (name.kind == drivers::PortName::Kind::hand) return port;
  if ((name.kind == drivers::PortName::Kind::keys) != (chosen.profile.speaks == Speaks::keys))
    return refuse("port", "profile `" + chosen.name + "` is not for the port " + port,
                  "profiles that speak keys are for keys:NAME, and only they");
  for (const auto& [pedal_name, pedal] : bench.pedals)
    if (pedal.port == port)
      return refuse("port_taken", "pedal `" + pedal_name + "` has the port " + port,
                    "`tenth pedal drop " + pedal_name + "` frees it");
  for (const auto& [other_name, other] : bench.gauges) {
    if (other.dropped || other_name == gauge || other.port == "hand" || device_of(other.port) != device_of(port))
      continue;
    if (other.channel == channel)
      return refuse(
          "port_taken",
          "gauge `" + other_name + "` has the port " + port + (channel.empty() ? "" : " and the channel " + channel),
          "`tenth gauge drop " + other_name + "` frees it");
    if (other.profile_sha256 != chosen.sha256 || other.unit != unit || other.port != port)
      return refuse("port_taken", "gauge `" + other_name + "` speaks otherwise on the port " + port,
                    "give the same --port, --profile and --unit " +
                        (other.unit ? std::string(tenth::name(*other.unit)) : "") + " to both");
  }
  return port;
}

struct Words {
  Reads reads = Reads::size;
  Measures measures = Measures::any;
  std::optional<Unit> unit;
};

Result<Words> words_of(const Params& params) {
  Words words;
  TENTH_TRY(const std::optional<std::string> reads, params.maybe_text("reads"));
  TENTH_TRY(const std::optional<std::string> measures, params.maybe_text("measures"));
  TENTH_TRY(const std::optional<std::string> unit, params.maybe_text("gauge_unit"));
  if (reads && !reads_named(*reads))
    return wrong_words("reads", "`" + *reads + "` is not what a gauge reads", "size or deviation");
  if (measures && !measures_named(*measures))
    return wrong_words("measures", "`" + *measures + "` is not what a gauge measures",
                       "inside, outside, depth, gap or any");
  if (reads) words.reads = *reads_named(*reads);
  if (measures) words.measures = *measures_named(*measures);
  if (unit) {
    TENTH_TRY(words.unit, parse_unit(*unit));
  }
  return words;
}

/// The lengths of `gauge add`, by their keys in the ledger.
Result<Json> lengths_of(const Params& params, std::optional<Unit> bare) {
  Json lengths;
  for (const char* key : {"resolution", "drift", "uncertainty", "repeatability"}) {
    TENTH_TRY(const std::optional<Length> length, params.maybe_length(key, bare));
    if (length && *length < Length())
      return wrong_words("length", "`--" + std::string(key) + "` is below zero", "give a length of zero or more");
    lengths[std::string(key) + "_pm"] = pm(length);
  }
  if (lengths["drift_pm"].is_null()) lengths["drift_pm"] = pm(Gauge{}.drift);
  return lengths;
}

Result<std::optional<std::string>> expansion_of(const Params& params) {
  TENTH_TRY(const std::optional<std::string> expansion, params.maybe_text("expansion"));
  if (expansion && !parse_expansion(*expansion))
    return wrong_words("expansion", "`" + *expansion + "` is no expansion",
                       "give a number in 1e-6/K from 0 to 1000, such as 11.5");
  return expansion;
}

/// How a gauge that shows its values all the time makes readings of them by itself.
Result<Json> capture_of(const Bench& bench, const Params& params, const ChosenProfile& chosen,
                        std::optional<Unit> bare) {
  TENTH_TRY(const std::optional<std::string> word, params.maybe_text("capture"));
  TENTH_TRY(const std::optional<std::string> named, params.maybe_text("button"));
  TENTH_TRY(const std::optional<std::string> button, maybe_gauge(bench, named));
  TENTH_TRY(const std::optional<Length> band, params.maybe_length("settle_band", bare));
  TENTH_TRY(const std::optional<std::int64_t> for_ms, params.maybe_number("settle_for_ms"));
  if (word && !capture_named(*word))
    return wrong_words("capture", "`" + *word + "` is no way to take readings", "asked, turning or settled");
  if (band && *band <= Length())
    return wrong_words("length", "`--settle-band` is not above zero", "give a length such as 3um");
  if (for_ms && (*for_ms < 1 || *for_ms > 60'000))
    return wrong_words("settle", "`--settle-for-ms` is from 1 to 60000", "give milliseconds");
  if (button && (*button == params.text("name").value_or("") || bench.gauges.at(*button).port == "hand"))
    return refuse("button", "gauge `" + *button + "` has no button that this one could take",
                  "name another gauge, one with a wire");
  if (((word && *word != "asked") || button) && !is_live(chosen.profile))
    return refuse("capture", "a gauge of profile `" + chosen.name + "` sends readings itself",
                  "leave --capture and --button out");
  Json body = {{"capture", word.value_or("asked")}, {"button", or_null(button)}};
  if (band) body["settle_band_pm"] = pm(*band);
  if (for_ms) body["settle_for_ms"] = *for_ms;
  return body;
}

}  // namespace

Result<ChosenProfile> chosen_profile(const Params& params) {
  TENTH_TRY(const std::string name, params.text("profile"));
  TENTH_TRY(const std::optional<std::string> given, params.maybe_file("profile_text"));
  const drivers::ShippedProfile* const shipped = drivers::find_shipped(name);
  if (!given && shipped == nullptr) {
    std::vector<std::string> names;
    for (const drivers::ShippedProfile& each : drivers::shipped_profiles()) names.emplace_back(each.name);
    const std::string near = nearest(name, names);
    return refuse("unknown_profile", "there is no profile `" + name + "`",
                  near.empty() ? "`tenth gauge profiles` lists them" : "did you mean `" + near + "`?");
  }
  ChosenProfile chosen{name, given ? *given : std::string(shipped->text), {}, {}};
  TENTH_TRY(chosen.profile, parse_profile(chosen.text, name));
  if (auto keys = drivers::KeyMap::make(chosen.profile.key_map); !keys) return tl::unexpected(keys.error());
  if (chosen.profile.speaks == Speaks::pedal)
    return refuse("pedal", "profile `" + name + "` is a pedal's, not a gauge's",
                  "`tenth pedal add NAME --port keys:NAME`");
  chosen.sha256 = hex(tenth::sha256(chosen.text));
  return chosen;
}

Result<Json> gauge_body(const Draft& draft, const std::string& name, const std::optional<std::string>& serial,
                        const Params& params, const ChosenProfile& chosen) {
  TENTH_TRY(const std::string wanted, params.text("port"));
  TENTH_TRY(const Words words, words_of(params));
  TENTH_TRY(const std::optional<std::string> channel, params.maybe_text("channel"));
  TENTH_TRY(const std::optional<std::string> expansion, expansion_of(params));
  if (!tells_unit(chosen.profile) && !words.unit && wanted != "hand")
    return wrong_words("unit", "frames of profile `" + chosen.name + "` may come without a unit",
                       "add --unit mm or --unit in");
  if (channel && !has_channels(chosen.profile))
    return refuse("channel", "profile `" + chosen.name + "` has no channels", "leave --channel out");
  TENTH_TRY(const std::string port,
            checked_port(draft.bench(), name, wanted, channel.value_or(""), chosen, words.unit));
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(draft.bench())));
  const std::optional<Unit> unit = words.unit ? words.unit : bare;
  TENTH_TRY(Json body, lengths_of(params, unit));
  TENTH_TRY(const Json capture, capture_of(draft.bench(), params, chosen, unit));
  body.update(capture);
  body.update({{"gauge", name},
               {"port", port},
               {"profile", chosen.name},
               {"profile_sha256", chosen.sha256},
               {"serial", or_null(serial)}});
  body.update(
      {{"reads", tenth::name(words.reads)}, {"measures", tenth::name(words.measures)}, {"channel", or_null(channel)}});
  body.update(
      {{"unit", words.unit ? Json(tenth::name(*words.unit)) : Json(nullptr)}, {"expansion", or_null(expansion)}});
  return body;
}

}  // namespace tenth
