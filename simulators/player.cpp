#include "simulators/player.hpp"

#include <utility>

#include "simulators/stream.hpp"

namespace tenth::simulators {

Result<Player> Player::open(const Scenario& scenario, const std::filesystem::path& folder, Time now) {
  Player player;
  auto seed = static_cast<std::uint64_t>(scenario.seed);
  for (const auto& gauge : scenario.gauges) {
    auto& outlet = player.outlets_[gauge.port_of.empty() ? gauge.name : gauge.port_of];
    if (gauge.port_of.empty()) {
      outlet.link = gauge.path.empty() ? "" : folder / gauge.path;
      outlet.address = gauge.tcp;
      if (auto open = outlet.open(); !open) return tl::unexpected(gauge.name + ": " + open.error());
    }
    auto& live = player.gauges_.try_emplace(gauge.name, gauge, outlet, seed++).first->second;
    if (gauge.streams) begin_stream(live, *player.agenda_, now);
  }
  return player;
}

Result<Done> Player::perform(const Act& act, Time now) {
  const auto live = gauges_.find(gauge_of(act));
  if (live == gauges_.end()) return tl::unexpected("no gauge '" + gauge_of(act) + "'");
  if (auto able = can_do(*live->second.gauge, act); !able) return tl::unexpected(able.error());
  return std::visit(Doing{live->second, *agenda_, now}, act);
}

std::vector<int> Player::descriptors() const {
  std::vector<int> open;
  for (const auto& [name, outlet] : outlets_)
    if (outlet.wire) open.push_back(outlet.wire->descriptor());
  return open;
}

void Player::hear(Time now) {
  for (auto& [name, outlet] : outlets_) {
    if (!outlet.wire) continue;
    outlet.heard += outlet.wire->hear();
    answer_questions(outlet, gauges_, *agenda_, now);
  }
}

void Player::forget_dead_readers() {
  for (auto& [name, outlet] : outlets_)
    if (outlet.wire) outlet.wire->forget_dead_reader();
}

}  // namespace tenth::simulators
