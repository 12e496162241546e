#include "drivers/link/open_port.hpp"

#include "drivers/link/usb_ports.hpp"
#include "drivers/port_name.hpp"

namespace tenth::drivers {

Result<std::unique_ptr<Link>> open_port(const boost::asio::any_io_executor& executor, const std::string& port,
                                        const Profile& profile) {
  using Kind = PortName::Kind;
  TENTH_TRY(const PortName name, parse_port(port));
  std::string path = name.name;
  if (name.kind == Kind::tcp) return open_tcp(executor, name.name, name.service);
  if (name.kind == Kind::keys) return open_keys(executor, name.name, profile);
  if (name.kind == Kind::usb_serial) {
    TENTH_TRY(path, device_with_serial(usb_ports(), name.name));
  }
  if (name.kind == Kind::usb_socket) {
    TENTH_TRY(path, device_in_socket(usb_ports(), name.name));
  }
  return open_serial(executor, path, profile.line);
}

}  // namespace tenth::drivers
