#pragma once

#include <sys/types.h>

#include <optional>
#include <string>

namespace tenth::drivers {

/// A process that has a device open.
struct Holder {
  pid_t process = 0;
  std::string program;  ///< its name as the kernel gives it
  bool locks = false;   ///< it holds a flock on the device
};

/// A process that has this device open, one with a flock first; ourselves only with a flock. Empty where /proc shows
/// none (it does not show other users' processes to everyone).
std::optional<Holder> find_holder(const std::string& path);

}  // namespace tenth::drivers
