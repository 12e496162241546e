#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "simulators/port.hpp"
#include "simulators/scenario.hpp"

namespace tenth::simulators {

/// The gauges of a scenario on their ports, and the acts that are done with them. It does not wait: `Wait` is the
/// loop's.
class Player {
 public:
  /// Opens a port for every gauge; paths that are not absolute lie in `folder`.
  static Result<Player> open(const Scenario& scenario, const std::filesystem::path& folder);

  /// Does one act now. The answer says what went over the wire, for people.
  Result<std::string> perform(const Act& act);

  void forget_dead_readers();

 private:
  struct Live {
    const Gauge* gauge = nullptr;
    std::filesystem::path link;
    std::unique_ptr<Port> port;  ///< empty while hung up
    Amount offset;
    std::size_t next = 0;  ///< of the values
  };

  struct Doing;
  std::map<std::string, Live> gauges_;
};

}  // namespace tenth::simulators
