#pragma once

#include <chrono>
#include <iosfwd>
#include <memory>
#include <string>

#include "simulators/control.hpp"
#include "simulators/player.hpp"

namespace tenth::simulators {

/// SIGTERM and SIGINT as something to poll. To be made before the ports, so that no signal leaves a link behind.
class Signals {
 public:
  Signals();
  ~Signals();
  Signals(const Signals&) = delete;
  Signals& operator=(const Signals&) = delete;
  int descriptor() const { return descriptor_; }

 private:
  int descriptor_;
};

/// Plays the acts of a scenario when they are due, lets the gauges do what they do by themselves, and does what the
/// control says in between.
class Loop {
 public:
  Loop(const Scenario& scenario, Player player, std::unique_ptr<Control> control, std::ostream& out, std::ostream& err);

  /// Until the play has ended, `quit`, or a signal. Gives the exit status.
  int run(const Signals& signals);

 private:
  bool play_due();
  std::chrono::nanoseconds patience() const;
  bool sleep(int signals);
  void obey();
  std::string answer(const std::string& line);

  const Scenario& scenario_;
  Player player_;
  std::unique_ptr<Control> control_;  ///< empty: none
  std::ostream &out_, &err_;
  std::size_t next_ = 0;  ///< act of the play
  Time due_ = Clock::now();
  bool told_ = false;  ///< the play stands still until `go`
  bool ended_ = false;
};

}  // namespace tenth::simulators
