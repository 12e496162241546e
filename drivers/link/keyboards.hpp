#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "rules/result.hpp"

namespace tenth::drivers {

/// A device with keys, as the kernel shows it now.
struct Keyboard {
  std::string device;  ///< "/dev/input/event3"
  std::string name;    ///< as it calls itself
  std::string serial;  ///< empty: it has none
};

/// All of them, by device (sysfs: class/input).
std::vector<Keyboard> keyboards(const std::filesystem::path& sys = "/sys", const std::filesystem::path& dev = "/dev");

/// The device of the one whose serial number is this, else of the one with this name. Refused: `absent`, `ambiguous`.
Result<std::string> keyboard_named(const std::vector<Keyboard>& all, const std::string& name);

/// The name to add it by: its serial number, else its name.
std::string key_port(const Keyboard& keyboard);

}  // namespace tenth::drivers
