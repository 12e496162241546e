#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "rules/result.hpp"

namespace tenth::drivers {

/// A serial port behind a USB converter, as the kernel shows it now.
struct UsbPort {
  std::string device;  ///< "/dev/ttyUSB0"
  std::string socket;  ///< the kernel's name of where it is plugged in: "1-3", "1-2.4"
  std::string part;    ///< the kernel's name of the port within a converter that may have several: "1-3:1.0"
  std::string serial;  ///< of the converter; empty: it has none
  std::string driver;  ///< the kernel's
};

/// All of them, by device. `sys` is where sysfs is mounted, `dev` where devices are.
std::vector<UsbPort> usb_ports(const std::filesystem::path& sys = "/sys", const std::filesystem::path& dev = "/dev");

/// The name that tells this port from all the others: "usb:SERIAL" where no other has that, else "usb:@SOCKET", else
/// "usb:@PART".
std::string usb_name(const UsbPort& port, const std::vector<UsbPort>& all);

/// The device of the one port with this serial number, or in this socket (or the part of it). Refused: `absent`;
/// `ambiguous` where several have it, with the names that tell them apart: never guessed.
Result<std::string> device_with_serial(const std::vector<UsbPort>& ports, const std::string& serial);
Result<std::string> device_in_socket(const std::vector<UsbPort>& ports, const std::string& socket);

}  // namespace tenth::drivers
