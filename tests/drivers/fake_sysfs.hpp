#pragma once

#include <filesystem>
#include <string>

#include "tests/support/folder.hpp"

namespace tenth::drivers {

/// A sysfs and a /dev of our own, in a temporary folder, laid out as the kernel lays out the real ones (from a machine
/// with Linux 6.1).
class FakeSysfs {
 public:
  FakeSysfs();

  /// A converter in `socket` ("1-2.4") with a port `name` as its part `number`; an empty serial number is none.
  void plug(const std::string& name, const std::string& socket, const std::string& serial, int number = 0);
  /// The same of a device that speaks the class of modems: its port hangs on the part itself.
  void plug_modem(const std::string& name, const std::string& socket, const std::string& serial);
  void unplug(const std::string& name, const std::string& socket);
  /// A port of the machine's own board; type 0: there is no chip behind it.
  void board_port(const std::string& name, int type);
  /// A terminal that is no device at all.
  void console(const std::string& name);
  void keyboard(const std::string& name, const std::string& called, const std::string& serial, const std::string& keys);

  std::filesystem::path sys() const { return root_ / "sys"; }
  std::filesystem::path dev() const { return root_ / "dev"; }

 private:
  std::filesystem::path usb(const std::string& socket) const;
  void converter(const std::string& socket, const std::string& part, const std::string& serial);
  void port(const std::filesystem::path& device, const std::string& name, const std::string& driver);

  Folder root_;
};

}  // namespace tenth::drivers
