#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "simulators/act.hpp"
#include "simulators/display.hpp"
#include "simulators/encode/registers.hpp"
#include "simulators/tcp_port.hpp"

namespace tenth::simulators {

/// One simulated gauge. It shows value + offset, or with a zero value − zero + offset.
struct Gauge {
  std::string name;
  std::string path;            ///< of its link; empty: none
  std::optional<Address> tcp;  ///< a TCP port instead of a pseudo-terminal
  std::string port_of;         ///< the gauge whose port it shares; empty: it has its own
  Display display;
  RegisterMap map;                     ///< modbus
  std::string ask;                     ///< query: what it answers to
  std::chrono::milliseconds delay{0};  ///< query, modbus: from the question to the answer
  std::optional<Amount> zero;          ///< the size at which a gauge for deviations shows nothing
  Amount offset;                       ///< the error of its zero
  std::vector<Amount> values;          ///< shown by presses without a value, one after another
  Amount held;                         ///< what it measures until it is moved
  int stream_hz = 10;
  bool streams = false;  ///< from the beginning
};

/// Whether both, on one port, would answer the same question: the same registers of one device, or the same `ask`.
bool answer_alike(const Gauge& one, const Gauge& other);

/// Whether the gauge can do that. Refused with what it would take.
Result<void> can_do(const Gauge& gauge, const Act& act);

}  // namespace tenth::simulators
