#include "daemon/alerting/alerting.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>

#include "daemon/acts/causes.hpp"
#include "daemon/alerting/http_sink.hpp"
#include "daemon/alerting/program_sink.hpp"
#include "schema/json/escape.hpp"
#include "schema/wire/views.hpp"

namespace tenth {
namespace {

void log(const Json& event) {
  const std::string text = printable(event.at("text").get<std::string>());
  if (event.at("event") == "alerts") return spdlog::warn("alerts: {}", text);
  const auto id = event.at("id").get<std::int64_t>();
  const auto& state = event.at("state").get_ref<const std::string&>();
  if (state != "open") return spdlog::info("alert {} {}: {}", id, state, text);
  spdlog::warn("alert {} {}{}: {}", id, event.at("severity").get_ref<const std::string&>(),
               event.contains("again") ? " (again)" : "", text);
}

/// Told by the desk, to all who watch: neither an alert told again nor a summary.
bool is_new(const Json& event) {
  return event.at("event") == "alert" && !event.contains("again");
}

}  // namespace

AlertSinks alert_sinks(const boost::asio::any_io_executor& loop, const AlertConfig& config) {
  AlertSinks sinks;
  if (!config.program.empty()) sinks.push_back(std::make_unique<ProgramSink>(loop, config.program));
  if (config.url) sinks.push_back(std::make_unique<HttpSink>(loop, *config.url));
  return sinks;
}

Alerting::Alerting(const boost::asio::any_io_executor& loop, const Clock& clock, AlertSinks sinks, Tell tell,
                   Crier crier)
    : clock_(clock), sinks_(std::move(sinks)), tell_(std::move(tell)), crier_(std::move(crier)), next_(loop) {}

void Alerting::start(const Bench& bench) {
  bench_ = &bench;
  for (const Alert& alert : bench.alerts)
    if (alert.state == AlertState::open) crier_.resume(alert_json(alert), clock_.now().mono_ns);
  wait();
}

void Alerting::hear(const Json& event) {
  if (!is_new(event)) return;
  log(event);
  if (crier_.hear(event, clock_.now().mono_ns)) bring(event);
  wait();
}

void Alerting::tell_due() {
  for (Json& event : crier_.due(clock_.now().mono_ns)) {
    if (event.contains("again") && bench_ != nullptr) bring_up_to_date(event);
    bring(event);
    if (!is_new(event)) log(event), tell_(event);
  }
  wait();
}

void Alerting::bring_up_to_date(Json& alert) const {
  for (const Alert& now : alerts_now(*bench_))
    if (now.id == alert.at("id")) alert.update(alert_json(now));
}

void Alerting::bring(const Json& event) {
  for (const auto& sink : sinks_) sink->tell(canonical(event));
}

void Alerting::wait() {
  const auto next_ns = crier_.next_ns();
  if (!next_ns) return next_.cancel(), void();
  next_.expires_after(std::chrono::nanoseconds(std::max<std::int64_t>(0, *next_ns - clock_.now().mono_ns)));
  next_.async_wait([this](const boost::system::error_code& error) {
    if (!error) tell_due();
  });
}

}  // namespace tenth
