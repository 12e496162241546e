#include "daemon/ports/pedals.hpp"

#include "daemon/acts/acts.hpp"
#include "daemon/params.hpp"
#include "drivers/port_name.hpp"

namespace tenth {

namespace {

Result<std::optional<std::string>> act_named(const Params& params, const char* key) {
  TENTH_TRY(const std::optional<std::string> word, params.maybe_text(key));
  if (!word) return word;
  if (const auto known = pedal_act(*word); !known) return tl::unexpected(known.error());
  return word;
}

}  // namespace

Decided pedal_add(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string name, checked_name(asked, "a pedal"));
  TENTH_TRY(const std::string port, params.text("port"));
  TENTH_TRY(const drivers::PortName parsed, drivers::parse_port(port));
  TENTH_TRY(const std::optional<std::string> press, act_named(params, "press"));
  TENTH_TRY(const std::optional<std::string> hold, act_named(params, "long"));
  const auto& bench = draft.bench();
  if (bench.pedals.contains(name))
    return refuse("pedal_exists", "there is a pedal `" + name + "` already",
                  "choose another name, or drop that one first");
  if (parsed.kind != drivers::PortName::Kind::keys)
    return refuse("port", "a pedal is a device with keys, not " + port,
                  "give keys:NAME; `tenth gauge find` lists what is there");
  for (const auto& [other, gauge] : bench.gauges)
    if (!gauge.dropped && gauge.port == port)
      return refuse("port_taken", "gauge `" + other + "` has the port " + port, "give another");
  for (const auto& [other, pedal] : bench.pedals)
    if (pedal.port == port) return refuse("port_taken", "pedal `" + other + "` has the port " + port, "give another");
  draft.append("pedal", {{"pedal", name}, {"port", port}, {"press", press.value_or("take")}, {"long", or_null(hold)}});
  return [name](const View& view) { return pedal_json(view, view.bench.pedals.at(name)); };
}

Decided pedal_drop(Draft& draft, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("name"));
  if (!draft.bench().pedals.contains(name))
    return refuse("unknown_pedal", "there is no pedal `" + name + "`", "`tenth pedal list` shows them");
  draft.append("pedal_drop", {{"pedal", name}});
  return [name](const View&) { return Json{{"pedal", name}}; };
}

}  // namespace tenth
