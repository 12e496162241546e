#include "drivers/link/port_identity.hpp"

#include <libserialport.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <memory>

namespace tenth::drivers {
namespace {

struct FreePort {
  void operator()(sp_port* port) const { sp_free_port(port); }
};

}  // namespace

std::string port_identity(const std::string& path) {
  std::error_code error;
  const auto device = std::filesystem::canonical(path, error);  // the library takes no by-id links
  sp_port* found = nullptr;
  if (error || sp_get_port_by_name(device.c_str(), &found) != SP_OK) return "";
  const std::unique_ptr<sp_port, FreePort> port(found);
  int vendor = 0, product = 0;
  if (sp_get_port_transport(port.get()) != SP_TRANSPORT_USB ||
      sp_get_port_usb_vid_pid(port.get(), &vendor, &product) != SP_OK)
    return "";
  std::array<char, 20> numbers{};
  std::snprintf(numbers.data(), numbers.size(), "usb %04x:%04x", static_cast<unsigned>(vendor),
                static_cast<unsigned>(product));
  const char* const serial = sp_get_port_usb_serial(port.get());
  return std::string(numbers.data()) + (serial == nullptr ? "" : " serial " + std::string(serial));
}

}  // namespace tenth::drivers
