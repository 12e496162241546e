#include "daemon/alerting/crier.hpp"

#include <algorithm>
#include <string>

namespace tenth {
namespace {

std::int64_t id_of(const Json& alert) {
  return alert.at("id").get<std::int64_t>();
}

bool is_open(const Json& alert) {
  return alert.at("state") == "open";
}

}  // namespace

void Crier::resume(const Json& alert, std::int64_t now_ns) {
  Open& open = open_[id_of(alert)];
  open.alert = alert;
  told(open, now_ns);
}

bool Crier::hear(const Json& alert, std::int64_t now_ns) {
  const std::int64_t id = id_of(alert);
  open_.erase(id);
  if (is_open(alert)) resume(alert, now_ns);
  if (pass(id, now_ns)) return true;
  held_[id] = alert;
  return false;
}

/// Room for one more in this window, for an alert of which nothing is held back: what is said of one alert stays in
/// order.
bool Crier::pass(std::int64_t id, std::int64_t now_ns) {
  if (now_ns >= window_until_ns_ && held_.empty()) {
    window_until_ns_ = now_ns + times_.window.count();
    in_window_ = 0;
  }
  if (in_window_ >= times_.most || held_.contains(id)) return false;
  ++in_window_;
  return true;
}

void Crier::told(Open& open, std::int64_t now_ns) const {
  const std::size_t step = std::min(open.told, times_.again.size()) - 1;
  open.next_ns = now_ns + times_.again[step].count();
}

std::vector<Json> Crier::due(std::int64_t now_ns) {
  std::vector<Json> all;
  if (!held_.empty() && now_ns >= window_until_ns_) {
    all.push_back(held_.size() == 1 ? held_.begin()->second : summary());
    held_.clear();
  }
  for (auto& [id, open] : open_) {
    if (open.next_ns > now_ns) continue;
    Json again = open.alert;
    again["again"] = open.told++;
    told(open, now_ns);
    if (pass(id, now_ns))
      all.push_back(std::move(again));
    else
      held_[id] = std::move(again);
  }
  return all;
}

Json Crier::summary() const {
  std::size_t stop = 0, open = 0;
  Json ids = Json::array();
  for (const auto& [id, alert] : held_) {
    ids.push_back(id);
    if (!is_open(alert)) continue;
    ++open;
    if (alert.at("severity") == "stop") ++stop;
  }
  const std::string count = std::to_string(held_.size()), stops = std::to_string(stop);
  return {{"event", "alerts"},
          {"count", held_.size()},
          {"open", open},
          {"stop", stop},
          {"ids", std::move(ids)},
          {"text", count + " more alerts at once, " + stops + " of them to stop for: `tenth alerts` lists them"}};
}

std::optional<std::int64_t> Crier::next_ns() const {
  std::optional<std::int64_t> next;
  if (!held_.empty()) next = window_until_ns_;
  for (const auto& [id, open] : open_) next = std::min(next.value_or(open.next_ns), open.next_ns);
  return next;
}

}  // namespace tenth
