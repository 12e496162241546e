#pragma once

#include <string>
#include <string_view>

#include "rules/result.hpp"

namespace tenth::drivers {

/// A port as `gauge add` takes it, taken apart.
struct PortName {
  enum class Kind { hand, device, usb_serial, usb_socket, tcp, keys };
  Kind kind = Kind::device;
  std::string name;  ///< the path, the serial number, the kernel's name of the socket (or of one port in it), the host,
                     ///< or the keyboard's name
  std::string service;  ///< of a host: its port, a number

  friend bool operator==(const PortName&, const PortName&) = default;
};

/// `hand`, a path (`/dev/…`), `usb:SERIAL`, `usb:@SOCKET`, `tcp:HOST:PORT`, `keys:NAME`. Wrong words (`port`): anything
/// else.
Result<PortName> parse_port(std::string_view text);

}  // namespace tenth::drivers
