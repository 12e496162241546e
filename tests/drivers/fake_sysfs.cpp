#include "tests/drivers/fake_sysfs.hpp"

#include <fstream>
#include <stdexcept>

namespace tenth::drivers {
namespace {

namespace fs = std::filesystem;

void write(const fs::path& file, const std::string& text) {
  fs::create_directories(file.parent_path());
  std::ofstream(file) << text << '\n';
}

/// Links in sysfs are relative.
void link(const fs::path& target, const fs::path& name) {
  fs::create_directories(target);
  fs::create_directories(name.parent_path());
  fs::create_symlink(fs::relative(target, name.parent_path()), name);
}

}  // namespace

FakeSysfs::FakeSysfs() {
  for (const char* const folder : {"sys/class/tty", "sys/class/input", "dev/input"})
    fs::create_directories(root_ / folder);
}

/// "1-2.4" lies in the folder of its hub, "1-2".
fs::path FakeSysfs::usb(const std::string& socket) const {
  fs::path folder = sys() / "devices/pci0000:00/0000:00:14.0" / ("usb" + socket.substr(0, socket.find('-')));
  for (auto point = socket.find('.'); point != std::string::npos; point = socket.find('.', point + 1))
    folder /= socket.substr(0, point);
  return folder / socket;
}

void FakeSysfs::converter(const std::string& socket, const std::string& part, const std::string& serial) {
  fs::create_directories(usb(socket) / part);
  write(usb(socket) / "idVendor", "1a2b");
  if (!serial.empty()) write(usb(socket) / "serial", serial);
}

void FakeSysfs::port(const fs::path& device, const std::string& name, const std::string& driver) {
  link(sys() / "bus/drivers" / driver, device / "driver");
  const fs::path tty = device / "tty" / name;
  link(device, tty / "device");
  link(tty, sys() / "class/tty" / name);
  write(dev() / name, "");
}

void FakeSysfs::plug(const std::string& name, const std::string& socket, const std::string& serial, int number) {
  const std::string part = socket + ":1." + std::to_string(number);
  converter(socket, part, serial);
  port(usb(socket) / part / name, name, "converter_sio");
}

void FakeSysfs::plug_modem(const std::string& name, const std::string& socket, const std::string& serial) {
  converter(socket, socket + ":1.0", serial);
  port(usb(socket) / (socket + ":1.0"), name, "cdc_acm");
}

void FakeSysfs::unplug(const std::string& name, const std::string& socket) {
  fs::remove_all(usb(socket));
  fs::remove(sys() / "class/tty" / name);
  fs::remove(dev() / name);
}

void FakeSysfs::board_port(const std::string& name, int type) {
  port(sys() / "devices/platform" / name, name, "serial8250");
  write(sys() / "class/tty" / name / "type", std::to_string(type));
}

void FakeSysfs::console(const std::string& name) {
  link(sys() / "devices/virtual/tty" / name, sys() / "class/tty" / name);
}

void FakeSysfs::keyboard(const std::string& name, const std::string& called, const std::string& serial,
                         const std::string& keys) {
  const fs::path input = usb("1-9") / "1-9:1.0/input" / ("input-of-" + name);
  write(input / "name", called);
  write(input / "uniq", serial);
  write(input / "capabilities/key", keys);
  link(input, input / name / "device");
  link(input / name, sys() / "class/input" / name);
  write(dev() / "input" / name, "");
}

}  // namespace tenth::drivers
