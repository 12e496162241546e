#include <algorithm>
#include <stdexcept>

#include "schema/ledger/fold_parts.hpp"

namespace tenth {
namespace {

AlertWhat what_named(const std::string& word) {
  const auto what = alert_what_named(word);
  if (!what) throw std::runtime_error("unknown kind of alert: " + word);
  return *what;
}

Cause cause_in(const Json& body) {
  Cause cause;
  cause.engine = text_at(body, "engine");
  cause.what = what_named(body.at("what").get<std::string>());
  cause.severity = body.at("severity") == "stop" ? Severity::stop : Severity::look;
  cause.subject = body.at("subject").get<std::string>();
  cause.text = body.at("text").get<std::string>();
  cause.value = length_at(body, "value_pm");
  cause.limit = length_at(body, "limit_pm");
  for (const Json& seq : body.at("seqs")) cause.seqs.push_back(seq.get<std::int64_t>());
  return cause;
}

Alert& alert_of(Bench& bench, const Entry& entry) {
  const auto id = entry.body.at("alert").get<std::int64_t>();
  const auto found =
      std::find_if(bench.alerts.begin(), bench.alerts.end(), [id](const Alert& alert) { return alert.id == id; });
  if (found == bench.alerts.end()) throw std::runtime_error("an entry about an alert that is not there");
  return *found;
}

}  // namespace

void apply_alert(Bench& bench, const Entry& entry) {
  Alert alert;
  alert.id = entry.seq;
  alert.time = entry.body.at("time").get<std::string>();
  alert.cause = cause_in(entry.body);
  bench.alerts.push_back(std::move(alert));
}

void apply_alert_end(Bench& bench, const Entry& entry) {
  Alert& alert = alert_of(bench, entry);
  alert.lasting = false;
  if (alert.state == AlertState::open) alert.state = AlertState::ended;
}

void apply_alert_clear(Bench& bench, const Entry& entry) {
  Alert& alert = alert_of(bench, entry);
  alert.state = AlertState::cleared;
  alert.note = entry.body.at("note").get<std::string>();
  alert.cleared_by = who_did(entry.body);
  if (entry.body.contains("what")) alert.cause = cause_in(entry.body);  // figures as they were accepted
}

}  // namespace tenth
