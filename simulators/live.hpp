#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "simulators/agenda.hpp"
#include "simulators/gauge.hpp"
#include "simulators/motion.hpp"
#include "simulators/wire.hpp"

namespace tenth::simulators {

/// A port of the scenario, there or hung up, and what has come over it that is no whole question yet.
struct Outlet {
  std::filesystem::path link;      ///< empty: none
  std::optional<Address> address;  ///< TCP; with the port that was chosen once it has been open
  std::unique_ptr<Wire> wire;      ///< empty while hung up
  std::string heard;

  Result<void> open();
};

/// A gauge as it stands now.
struct Live {
  const Gauge* gauge = nullptr;
  Outlet* outlet = nullptr;
  Amount offset;
  std::size_t next = 0;  ///< of its values
  Unit unit = Unit::mm;  ///< of its display
  std::chrono::milliseconds delay{0};
  bool muted = false;
  Spoil spoil;          ///< of the next answer or frame of a stream
  unsigned stream = 0;  ///< goes up when a stream begins or ends: the one with an older number is over
  Amount held;          ///< where it stands when nothing moves it
  std::optional<Motion> motion;
  Time moved;  ///< when the motion began
  Random random;

  Live(const Gauge& of, Outlet& on, std::uint64_t seed);

  /// What it measures now.
  Amount size(Time now);
  void move(const Motion& by, Time now);

  Display display() const { return switched(gauge->display, unit); }

  /// What stands on its display where it measures that.
  Amount shown(Amount measured) const { return measured - gauge->zero.value_or(Amount{}) + offset; }

  /// The frame of that.
  Result<std::string> frame_of(Amount measured, const Display& display) const;

  /// Sends bytes. Refused where it is hung up, or they cannot be sent.
  Result<void> send(std::string_view bytes);

  /// What happens to the next frame; none to the one after it.
  Spoil take_spoil() { return std::exchange(spoil, {}); }
};

}  // namespace tenth::simulators
