#pragma once

#include <string>

namespace tenth::drivers {

/// What the system knows of the converter behind a port, such as "usb 1a2b:3c4d serial 0042": its vendor and product
/// numbers and its serial number (libserialport, from sysfs). Empty for what is no USB port. Opens nothing.
std::string port_identity(const std::string& path);

}  // namespace tenth::drivers
