#include "drivers/link/open_port.hpp"

#include "drivers/link/look_around.hpp"
#include "drivers/link/usb_ports.hpp"
#include "drivers/port_name.hpp"

namespace tenth::drivers {

namespace {

/// One for all ports: one thread asks.
Result<std::string> usb_device(const LookAround<UsbPort>::Find& find) {
  static LookAround<UsbPort> around([] { return usb_ports(); });
  return around.find(find);
}

}  // namespace

Result<std::unique_ptr<Link>> open_port(const boost::asio::any_io_executor& executor, const std::string& port,
                                        const Profile& profile) {
  using Kind = PortName::Kind;
  TENTH_TRY(const PortName name, parse_port(port));
  std::string path = name.name;
  if (name.kind == Kind::tcp) return open_tcp(executor, name.name, name.service);
  if (name.kind == Kind::keys) return open_keys(executor, name.name, profile);
  if (name.kind == Kind::usb_serial) {
    TENTH_TRY(path, usb_device([&](const auto& ports) { return device_with_serial(ports, name.name); }));
  }
  if (name.kind == Kind::usb_socket) {
    TENTH_TRY(path, usb_device([&](const auto& ports) { return device_in_socket(ports, name.name); }));
  }
  return open_serial(executor, path, profile.line);
}

}  // namespace tenth::drivers
