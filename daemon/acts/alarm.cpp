#include <algorithm>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/causes.hpp"
#include "daemon/params.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

Json cause_body(const Cause& cause) {
  return {{"engine", or_null(cause.engine)},
          {"severity", name(cause.severity)},
          {"what", name(cause.what)},
          {"subject", cause.subject},
          {"text", cause.text},
          {"value_pm", pm(cause.value)},
          {"limit_pm", pm(cause.limit)},
          {"seqs", cause.seqs}};
}

void tell(Draft& draft, const std::vector<Alert>& alerts, const std::vector<Cause>& now) {
  const AlertChanges changes = compare(alerts, now);
  for (const Cause& cause : changes.raise) draft.append("alert", cause_body(cause));
  for (const std::int64_t id : changes.end) {
    const auto ended = std::find_if(alerts.begin(), alerts.end(), [id](const Alert& alert) { return alert.id == id; });
    draft.append("alert_end", {{"alert", id}, {"engine", or_null(ended->cause.engine)}});
  }
}

/// The alerts that a set of causes is compared with: those of one engine, or those of none.
std::vector<Alert> alerts_of(const Bench& bench, const std::optional<std::string>& engine) {
  std::vector<Alert> alerts;
  std::copy_if(bench.alerts.begin(), bench.alerts.end(), std::back_inserter(alerts), [&](const Alert& alert) {
    return alert.cause.engine == engine && alert.state != AlertState::ended && alert.lasting;
  });
  return alerts;
}

}  // namespace

void tell_alerts(Draft& draft) {
  const auto touched = draft.touched();
  for (const std::string& name : touched) tell(draft, alerts_of(draft.bench(), name), causes_of(draft.bench(), name));
  if (draft.bench_touched()) tell(draft, alerts_of(draft.bench(), std::nullopt), causes_of_none(draft.bench()));
}

Decided alerts_clear(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> id, params.maybe_number("id"));
  TENTH_TRY(const std::string note, params.words("note"));
  const std::vector<Alert> alerts = alerts_now(draft.bench());
  const auto found = std::find_if(alerts.begin(), alerts.end(), [&](const Alert& alert) { return alert.id == id; });
  if (found == alerts.end())
    return refuse("unknown_alert", "there is no alert " + (id ? std::to_string(*id) : std::string("without a number")),
                  "`tenth alerts --all` shows them");
  if (found->state == AlertState::cleared)
    return refuse("cleared", "that alert is cleared already", "nothing is left to do");
  Json body = cause_body(found->cause);
  body.update({{"alert", *id}, {"note", note}});
  draft.append("alert_clear", std::move(body));
  return [id = *id](const View& view) {
    const auto& all = view.bench.alerts;
    return alert_json(*std::find_if(all.begin(), all.end(), [id](const Alert& alert) { return alert.id == id; }));
  };
}

}  // namespace tenth
