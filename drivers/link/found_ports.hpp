#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tenth::drivers {

/// A port that a gauge may hang on, and what stops us from using it.
struct FoundPort {
  std::string port;    ///< what `gauge add` takes
  std::string device;  ///< its name now
  std::string driver;  ///< the kernel's; empty: not known
  std::string holder;  ///< "PROGRAM (process N)"; empty: nobody
  std::string why;     ///< what stops us and the remedy; empty: nothing
};

/// All serial ports that the system has, and all keyboards. Opens none of them.
std::vector<FoundPort> find_ports(const std::filesystem::path& sys = "/sys", const std::filesystem::path& dev = "/dev");

}  // namespace tenth::drivers
