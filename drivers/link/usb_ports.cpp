#include "drivers/link/usb_ports.hpp"

#include <algorithm>
#include <fstream>
#include <regex>

namespace tenth::drivers {

namespace {

namespace fs = std::filesystem;

std::string first_line(const fs::path& file) {
  std::ifstream stream(file);
  std::string line;
  std::getline(stream, line);
  return line;
}

/// The folder of the USB device that an interface belongs to; empty where the port is none of USB.
/// Its name is the socket: bus, "-", and the ports of the hubs with points between.
fs::path usb_device_of(fs::path place) {
  static const std::regex socket(R"(\d+-\d+(\.\d+)*)");
  for (; place.has_relative_path(); place = place.parent_path())
    if (std::regex_match(place.filename().string(), socket)) return place;
  return {};
}

std::string listed(const std::vector<const UsbPort*>& ports) {
  std::string text;
  for (const UsbPort* const port : ports) text += (text.empty() ? "" : ", ") + ("usb:@" + port->socket);
  return text;
}

Result<std::string> only(const std::vector<const UsbPort*>& found, const std::string& what) {
  if (found.empty()) return refuse("absent", "there is no port " + what, "plug the gauge in; `tenth gauge find` lists what is there");
  if (found.size() == 1) return found.front()->device;
  return refuse("ambiguous", std::to_string(found.size()) + " ports are " + what, "add it by its socket instead: " + listed(found));
}

}  // namespace

std::vector<UsbPort> usb_ports(const fs::path& sys, const fs::path& dev) {
  std::vector<UsbPort> ports;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(sys / "class/tty", error)) {
    const fs::path place = fs::canonical(entry.path() / "device", error);
    if (error) continue;
    const fs::path usb = usb_device_of(place);
    if (usb.empty()) continue;
    const fs::path driver = fs::canonical(place / "driver", error);
    ports.push_back({(dev / entry.path().filename()).string(), usb.filename().string(), first_line(usb / "serial"), error ? "" : driver.filename().string()});
  }
  std::sort(ports.begin(), ports.end(), [](const UsbPort& a, const UsbPort& b) { return a.device < b.device; });
  return ports;
}

Result<std::string> device_with_serial(const std::vector<UsbPort>& ports, const std::string& serial) {
  std::vector<const UsbPort*> found;
  for (const UsbPort& port : ports)
    if (port.serial == serial) found.push_back(&port);
  return only(found, "usb:" + serial);
}

Result<std::string> device_in_socket(const std::vector<UsbPort>& ports, const std::string& socket) {
  std::vector<const UsbPort*> found;
  for (const UsbPort& port : ports)
    if (port.socket == socket) found.push_back(&port);
  return only(found, "usb:@" + socket);
}

}  // namespace tenth::drivers
