#include "drivers/link/found_ports.hpp"

#include <grp.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>

#include "drivers/link/holder.hpp"
#include "drivers/link/keyboards.hpp"
#include "drivers/link/usb_ports.hpp"

namespace tenth::drivers {

namespace {

namespace fs = std::filesystem;

std::string group_of(const std::string& device) {
  struct stat status{};
  if (stat(device.c_str(), &status) != 0) return "";
  const group* const owner = getgrgid(status.st_gid);  // one thread asks
  return owner == nullptr ? std::to_string(status.st_gid) : owner->gr_name;
}

/// What the daemon's user lacks; the remedy is a command to copy.
std::string permission_of(const std::string& device, int wanted) {
  if (access(device.c_str(), wanted) == 0) return "";
  if (access(device.c_str(), F_OK) != 0) return "the device " + device + " is not there";
  return "no permission: run `sudo usermod -aG " + group_of(device) +
         " USER` for the user that runs tenthd, then log in again";
}

FoundPort found(std::string port, std::string device, std::string driver, int wanted) {
  std::string why = permission_of(device, wanted);
  return {std::move(port), std::move(device), std::move(driver), "", std::move(why)};
}

void add_holders(std::vector<FoundPort>& ports) {
  std::vector<std::string> devices;
  for (const FoundPort& port : ports) devices.push_back(port.device);
  const auto holders = find_holders(devices);
  for (FoundPort& port : ports)
    if (const auto found = holders.find(port.device); found != holders.end())
      port.holder = found->second.program + " (process " + std::to_string(found->second.process) + ")";
}

/// The ports on the machine's own board: those that have a chip behind them (a type above zero).
std::vector<std::string> board_ports(const fs::path& sys) {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator it(sys / "class/tty", error), end; !error && it != end; it.increment(error)) {
    const fs::directory_entry& entry = *it;
    std::ifstream type(entry.path() / "type");
    int number = 0;
    if (type >> number && number > 0) names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

std::vector<FoundPort> find_ports(const fs::path& sys, const fs::path& dev) {
  std::vector<FoundPort> all;
  const std::vector<UsbPort> usb = usb_ports(sys, dev);
  for (const UsbPort& port : usb) all.push_back(found(usb_name(port, usb), port.device, port.driver, R_OK | W_OK));
  for (const std::string& name : board_ports(sys)) {
    const std::string device = (dev / name).string();
    all.push_back(found(device, device, "", R_OK | W_OK));
  }
  for (const Keyboard& each : keyboards(sys, dev)) all.push_back(found(key_port(each), each.device, "", R_OK));
  add_holders(all);
  return all;
}

}  // namespace tenth::drivers
