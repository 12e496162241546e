#pragma once

#include <sys/types.h>

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tenth::drivers {

/// A process that has a device open.
struct Holder {
  pid_t process = 0;
  std::string program;  ///< its name as the kernel gives it
  bool locks = false;   ///< it holds a flock on the device
};

/// For each of these devices that has one: a process that has it open, one with a flock first; ourselves only with a
/// flock. One look through /proc, which does not show other users' processes to everyone.
std::map<std::string, Holder> find_holders(const std::vector<std::string>& paths);

/// The same for one.
std::optional<Holder> find_holder(const std::string& path);

}  // namespace tenth::drivers
