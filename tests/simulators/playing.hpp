#pragma once

#include <gtest/gtest.h>

#include <string>
#include <utility>

#include "bench.hpp"
#include "simulators/player.hpp"

namespace tenth::simulators {

/// The gauges of a scenario, played at times that the test says.
class Played {
 public:
  explicit Played(const std::string& gauges)
      : scenario_(parse_scenario("title = 't'\nseed = 7\n" + gauges, "s.toml").value()),
        player_(Player::open(scenario_, folder_ / "", now_).value()) {}

  std::string done(const std::string& words) {
    const auto answer = player_.perform(parse_act(words).value(), now_);
    return answer ? answer->text : "error: " + answer.error();
  }

  /// Lets that time go by, with all that is due in it at its own time.
  void pass(std::chrono::milliseconds time) {
    const auto end = now_ + time;
    for (auto next = player_.next(); next && *next <= end; next = player_.next()) {
      now_ = std::max(now_, *next);
      player_.run(now_);
    }
    now_ = end;
  }

  /// A question is asked on the port and heard; what it is answered with at once stands on the port then.
  void ask(const Reader& port, std::string_view question) {
    port.write(question);
    hear();
  }

  /// What has come is heard, as when poll has told of it.
  void hear() {
    std::vector<pollfd> waiting;
    for (const int port : player_.descriptors()) waiting.push_back({port, POLLIN, 0});
    ::poll(waiting.data(), waiting.size(), 1000);
    player_.hear(now_);
  }

  std::filesystem::path path(const std::string& name) const { return folder_ / name; }
  std::string address(const std::string& name) const { return std::filesystem::read_symlink(path(name)); }
  Player& player() { return player_; }
  Time now() const { return now_; }

 private:
  Folder folder_;
  Scenario scenario_;
  Time now_{};
  Player player_;
};

}  // namespace tenth::simulators
