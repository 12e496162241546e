#include "drivers/link/usb_ports.hpp"

#include <algorithm>
#include <regex>
#include <utility>

#include "drivers/link/first_line.hpp"

namespace tenth::drivers {

namespace {

namespace fs = std::filesystem;

/// The folder of the USB device that a port belongs to, and of the part of it; both empty where the port is none of
/// USB. The device's name is the socket: bus, "-", and the ports of the hubs with points between.
std::pair<fs::path, fs::path> usb_folders_of(fs::path place) {
  static const std::regex socket(R"(\d+-\d+(\.\d+)*)");
  for (fs::path part; place.has_relative_path(); part = std::exchange(place, place.parent_path()))
    if (std::regex_match(place.filename().string(), socket)) return {place, part};
  return {};
}

Result<std::string> only(const std::vector<UsbPort>& all, std::string UsbPort::* what, const std::string& wanted,
                         const std::string& name) {
  std::string device, names;
  std::size_t count = 0;
  for (const UsbPort& port : all)
    if (port.*what == wanted) {
      device = port.device;
      names += (count++ == 0 ? "" : ", ") + usb_name(port, all);
    }
  if (count == 0)
    return refuse("absent", "there is no port " + name, "plug the gauge in; `tenth gauge find` lists what is there");
  if (count == 1) return device;
  return refuse("ambiguous", std::to_string(count) + " ports are " + name,
                "add it by the name that it has alone: " + names);
}

}  // namespace

std::vector<UsbPort> usb_ports(const fs::path& sys, const fs::path& dev) {
  std::vector<UsbPort> ports;
  std::error_code error;
  for (fs::directory_iterator it(sys / "class/tty", error), end; !error && it != end; it.increment(error)) {
    const fs::directory_entry& entry = *it;
    const fs::path place = fs::canonical(entry.path() / "device", error);
    if (error) continue;
    const auto [usb, part] = usb_folders_of(place);
    if (usb.empty()) continue;
    const fs::path driver = fs::canonical(place / "driver", error);
    ports.push_back({(dev / entry.path().filename()).string(), usb.filename().string(), part.filename().string(),
                     first_line(usb / "serial"), error ? "" : driver.filename().string()});
  }
  std::sort(ports.begin(), ports.end(), [](const UsbPort& a, const UsbPort& b) { return a.device < b.device; });
  return ports;
}

std::string usb_name(const UsbPort& port, const std::vector<UsbPort>& all) {
  const auto alone = [&](std::string UsbPort::* what) {
    return std::count_if(all.begin(), all.end(), [&](const UsbPort& other) { return other.*what == port.*what; }) == 1;
  };
  if (!port.serial.empty() && alone(&UsbPort::serial)) return "usb:" + port.serial;
  return "usb:@" + (alone(&UsbPort::socket) ? port.socket : port.part);
}

Result<std::string> device_with_serial(const std::vector<UsbPort>& ports, const std::string& serial) {
  return only(ports, &UsbPort::serial, serial, "usb:" + serial);
}

Result<std::string> device_in_socket(const std::vector<UsbPort>& ports, const std::string& socket) {
  const bool part = socket.find(':') != std::string::npos;
  return only(ports, part ? &UsbPort::part : &UsbPort::socket, socket, "usb:@" + socket);
}

}  // namespace tenth::drivers
