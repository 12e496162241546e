#include <filesystem>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/gauge_view.hpp"
#include "daemon/params.hpp"
#include "drivers/decoder.hpp"
#include "rules/nearest.hpp"
#include "schema/store/hash.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

/// The device behind a path, so that two names of one port are the same port.
std::string device_of(const std::string& port) {
  std::error_code error;
  const fs::path real = fs::weakly_canonical(port, error);
  return error ? port : real.string();
}

Result<std::string> checked_port(const Bench& bench, const std::string& port) {
  if (port == "hand") return port;
  if (port.empty() || port.front() != '/')
    return refuse("port", "`" + port + "` is no port", "give the path of a device, such as /dev/serial/by-id/NAME, or `hand`");
  for (const auto& [name, other] : bench.gauges)
    if (!other.dropped && other.port != "hand" && device_of(other.port) == device_of(port))
      return refuse("port_taken", "gauge `" + name + "` has the port " + port, "`tenth gauge drop " + name + "` frees it");
  return port;
}

Result<const drivers::Format*> known_profile(const std::string& name) {
  if (const drivers::Format* const format = drivers::find_format(name)) return format;
  std::vector<std::string> names;
  for (const drivers::Format& format : drivers::formats()) names.push_back(format.name);
  const std::string near = nearest(name, names);
  return refuse("unknown_profile", "there is no profile `" + name + "`",
                near.empty() ? "the profiles are line, bcd13 and bin24" : "did you mean `" + near + "`?");
}

/// A name stands for one instrument in every record: it never goes to another serial number.
Result<std::string> free_name(const Bench& bench, const std::string& name, const std::string& serial) {
  const auto found = bench.gauges.find(name);
  if (found == bench.gauges.end()) return checked_name(name, "a gauge");
  if (!found->second.dropped)
    return refuse("gauge_exists", "there is a gauge `" + name + "` already", "choose another name, or drop that one first");
  if (found->second.serial != serial)
    return refuse("gauge_exists", "the name `" + name + "` belongs to the gauge with serial number `" + found->second.serial + "`",
                  "choose another name: a name never goes to another serial number");
  return name;
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
  if (reads && !reads_named(*reads)) return wrong_words("reads", "`" + *reads + "` is not what a gauge reads", "size or deviation");
  if (measures && !measures_named(*measures))
    return wrong_words("measures", "`" + *measures + "` is not what a gauge measures", "inside, outside, depth, gap or any");
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
    return wrong_words("expansion", "`" + *expansion + "` is no expansion", "give a number in 1e-6/K from 0 to 1000, such as 11.5");
  return expansion;
}

/// The profile's whole text is kept once, the first time that a gauge uses it.
std::int64_t keep_profile(Draft& draft, const drivers::Format& format, const std::string& sha256) {
  const auto known = draft.bench().profiles.find(sha256);
  if (known != draft.bench().profiles.end()) return known->second;
  return draft.append("profile", {{"name", format.name}, {"text", format.definition}, {"sha256", sha256}});
}

}  // namespace

Decided gauge_add(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::optional<std::string> serial, params.maybe_text("serial"));
  TENTH_TRY(const std::string name, free_name(draft.bench(), asked, serial.value_or("")));
  TENTH_TRY(const std::string profile, params.text("profile"));
  TENTH_TRY(const drivers::Format* const format, known_profile(profile));
  TENTH_TRY(const std::string wanted, params.text("port"));
  TENTH_TRY(const std::string port, checked_port(draft.bench(), wanted));
  TENTH_TRY(const Words words, words_of(params));
  TENTH_TRY(const std::optional<std::string> channel, params.maybe_text("channel"));
  TENTH_TRY(const std::optional<std::string> expansion, expansion_of(params));
  if (!format->unit_in_frame && !words.unit && port != "hand")
    return wrong_words("unit", "frames of profile `" + profile + "` may come without a unit", "add --unit mm or --unit in");
  if (channel) return refuse("channel", "profile `" + profile + "` has no channels", "leave --channel out");
  TENTH_TRY(const std::optional<Unit> bare, params.unit(spec_unit(draft.bench())));
  TENTH_TRY(Json body, lengths_of(params, words.unit ? words.unit : bare));
  const std::string sha256 = hex(tenth::sha256(format->definition));
  body["profile_entry"] = keep_profile(draft, *format, sha256);
  body.update({{"gauge", name}, {"port", port}, {"profile", profile}, {"profile_sha256", sha256}, {"serial", or_null(serial)}});
  body.update({{"reads", tenth::name(words.reads)}, {"measures", tenth::name(words.measures)}});
  body.update({{"unit", words.unit ? Json(tenth::name(*words.unit)) : Json(nullptr)}, {"expansion", or_null(expansion)}});
  draft.append("gauge", std::move(body));
  return [name](const View& view) { return gauge_json(view, view.bench.gauges.at(name)); };
}

Decided gauge_drop(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("name"));
  TENTH_TRY(const Gauge* const gauge, gauge_named(draft.bench(), name));
  draft.append("gauge_drop", {{"gauge", gauge->name}});
  return [name](const View&) { return Json{{"gauge", name}}; };
}

}  // namespace tenth
