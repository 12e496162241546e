#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "simulators/amount.hpp"

namespace tenth::simulators {

/// What a gauge hangs on: a pseudo-terminal, or a TCP port that one client at a time is connected to. Nothing here
/// waits. Destroying it is a hang-up.
class Wire {
 public:
  Wire() = default;
  Wire(const Wire&) = delete;
  Wire& operator=(const Wire&) = delete;
  virtual ~Wire() = default;

  /// Sends as many of the bytes as there is room for, from the first on; the number of them.
  virtual Result<std::size_t> offer(std::string_view bytes) = 0;

  /// Sends the bytes. Refused where nobody has read for so long that not all of them can wait.
  Result<void> send(std::string_view bytes);

  /// To be polled for input.
  virtual int descriptor() const = 0;

  /// The bytes that have come from the other side; to be called when there is input.
  virtual std::string hear() = 0;

  /// On a real port the mark "exclusive" ends when its holder closes; where ours would stay it is taken away here.
  /// To be called now and then.
  virtual void forget_dead_reader() {}

  /// The device, or the address.
  virtual const std::string& where() const = 0;
};

}  // namespace tenth::simulators
