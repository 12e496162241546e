#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "simulators/asked.hpp"
#include "simulators/doing.hpp"
#include "simulators/scenario.hpp"

namespace tenth::simulators {

/// The gauges of a scenario on their ports, and the acts that are done with them. It neither waits nor reads a clock:
/// `Wait` is the loop's, which also says what time it is.
class Player {
 public:
  /// Opens a port for every gauge that has its own; paths that are not absolute lie in `folder`.
  static Result<Player> open(const Scenario& scenario, const std::filesystem::path& folder, Time now);

  /// Does, or begins, one act.
  Result<Done> perform(const Act& act, Time now);

  /// To be polled for input; then `hear` is called.
  std::vector<int> descriptors() const;
  void hear(Time now);

  /// When something is due by itself, and doing what is.
  std::optional<Time> next() const { return agenda_->next(); }
  void run(Time now) { agenda_->run(now); }

  void forget_dead_readers();

 private:
  std::map<std::string, Outlet> outlets_;  ///< by the gauge that has the port
  Gauges gauges_;
  std::unique_ptr<Agenda> agenda_ = std::make_unique<Agenda>();
};

}  // namespace tenth::simulators
