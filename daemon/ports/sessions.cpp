#include "daemon/ports/sessions.hpp"

#include <spdlog/spdlog.h>

#include "schema/profile/profile_file.hpp"

namespace tenth {

void Sessions::start_all(const Bench& bench) {
  std::map<std::int64_t, const Gauge*> in_order;
  for (const auto& [name, gauge] : bench.gauges)
    if (!gauge.dropped) in_order[gauge.entry] = &gauge;
  for (const auto& [entry, gauge] : in_order) start(*gauge, bench);
}

void Sessions::start(const Gauge& gauge, const Bench& bench) {
  if (gauge.port == "hand") return;
  auto& session = sessions_[gauge.port];
  if (session) return session->add(gauge);
  const ProfileText& kept = bench.profiles.at(gauge.profile_sha256);
  auto profile = parse_profile(kept.text, kept.name);
  if (!profile) {  // an older release took it
    spdlog::error("gauge {}: its profile cannot be read: {}", gauge.name, profile.error().message);
    sessions_.erase(gauge.port);
    return;
  }
  session = std::make_shared<PortSession>(loop_, desk_, open_, gauge.port, std::move(*profile), gauge.unit);
  session->add(gauge);
  session->start();
}

void Sessions::stop(const std::string& gauge) {
  for (auto it = sessions_.begin(); it != sessions_.end(); ++it) {
    if (!it->second->serves(gauge)) continue;
    if (it->second->is_last(gauge)) {
      it->second->stop();
      sessions_.erase(it);
    } else {
      it->second->remove(gauge);
    }
    return;
  }
}

void Sessions::follow(const Entry& entry, const Bench& bench) {
  const auto& kind = entry.body.at("kind").get_ref<const std::string&>();
  if (kind != "gauge" && kind != "gauge_drop") return;
  const auto name = entry.body.at("gauge").get<std::string>();
  if (kind == "gauge")  // one that was changed: what its port has received is its own still
    for (const auto& [port, session] : sessions_)
      if (session->serves(name)) session->take_rest();
  stop(name);
  if (kind == "gauge") start(bench.gauges.at(name), bench);
}

void Sessions::stop_all() {
  for (const auto& [port, session] : sessions_) {
    session->take_rest();
    session->stop();
  }
  sessions_.clear();
}

}  // namespace tenth
